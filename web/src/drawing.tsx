import { useEffect, useRef, useState } from "preact/hooks";
import type { SceneItem, SceneScene } from "./api/types.gen.ts";
import { commandOf } from "./commands/commands.ts";
import { centre, type Frame, fit, Shape } from "./paint/scene.tsx";
import { chosen, light, lit } from "./state/ask.ts";
import { route } from "./state/data.ts";
import { look, pane } from "./state/look.ts";
import { measured, pixelsPerMM } from "./state/paper.ts";
import { grip } from "./tools/grip.ts";
import { next, type Stop, type Way } from "./tools/walk.ts";

/** Margin in mm round the geometry on the screen; the sheet is laid out for the same. */
const margin = 6;

const walkable = /^(outlet|point|line)\./;

const narrow = () => matchMedia("(max-width: 899px)").matches;

const arrows: Record<string, Way> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};

/** Items of one layer in runs of the same id, so that a thing is one group: one stop, one name. */
interface Group {
  key: string;
  id: string;
  items: SceneItem[];
}

function groups(scene: SceneScene): { layer: string; groups: Group[] }[] {
  return scene.layers.map((layer) => {
    const out: Group[] = [];
    for (const item of layer.items) {
      const id = item.id ?? "";
      const last = out[out.length - 1];
      // A light core without an id belongs to the line it lies on.
      if (last && (last.id === id || (id === "" && item.line && walkable.test(last.id))))
        last.items.push(item);
      else out.push({ key: `${layer.id}-${out.length}`, id, items: [item] });
    }
    return { layer: layer.id, groups: out };
  });
}

function stopsOf(scene: SceneScene, frame: Frame): Stop[] {
  const stops = new Map<string, Stop>();
  for (const layer of scene.layers) {
    for (const item of layer.items) {
      if (!item.id || !walkable.test(item.id) || stops.has(item.id)) continue;
      const at = centre(item, frame);
      if (at) stops.set(item.id, { id: item.id, x: at[0], y: at[1] });
    }
  }
  return [...stops.values()];
}

/** What is written at a thing comes first in its name, so that saying what one sees reaches it. */
function nameOf(group: Group, title: string | undefined): string {
  const written = group.items.flatMap((i) => (i.text ? [i.text.text] : []));
  return [...(written.length > 0 ? [written.join(" ")] : []), title ?? group.id].join(", ");
}

/** The thing that an event is about; "" for none. */
const idOf = (e: Event) => (e.target as Element).closest("[data-id]")?.getAttribute("data-id") ?? "";

/** A scene painted, with things to choose. */
export function Drawing({ scene, label }: { scene: SceneScene; label: string }) {
  const svg = useRef<SVGSVGElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [stop, setStop] = useState("");

  useEffect(() => {
    const element = svg.current;
    if (!element) return;
    const watch = new ResizeObserver(() => {
      const box = element.getBoundingClientRect();
      setSize({ width: box.width, height: box.height });
      pane.value = { width: box.width, height: box.height };
      // On a phone the page scrolls and the window follows the drawing, so its height cannot say what to draw.
      measured(box.width, narrow() ? innerHeight * 0.72 : box.height);
    });
    watch.observe(element);
    const letGo = grip(element);
    // On the parent: a drawing that listens for the focus itself becomes a stop of its own.
    const parent = element.parentElement;
    const focused = (e: Event) => light(...(idOf(e) ? [idOf(e)] : []));
    const left = () => light();
    parent?.addEventListener("focusin", focused);
    parent?.addEventListener("focusout", left);
    return () => {
      parent?.removeEventListener("focusin", focused);
      parent?.removeEventListener("focusout", left);
      watch.disconnect();
      letGo();
    };
  }, []);

  // Set on the element, not as a style attribute: the page's policy allows no inline style.
  useEffect(() => {
    const box = svg.current?.parentElement;
    if (!box || size.width === 0 || look.value.zoom !== 1) return;
    const w = scene.max_m[0] - scene.min_m[0];
    const h = scene.max_m[1] - scene.min_m[1];
    const room = 2 * margin * pixelsPerMM;
    const height = Math.min(((size.width - room) * h) / w + room, innerHeight * 0.72);
    box.style.height = narrow() ? `${Math.round(height)}px` : "";
  }, [scene, size.width]);

  const { zoom, x, y } = look.value;
  const base = fit(scene, size.width, size.height, pixelsPerMM, margin);
  const frame: Frame = {
    perMM: base.perMM,
    perMetre: base.perMetre * zoom,
    left: base.left,
    top: base.top,
  };
  const stops = stopsOf(scene, frame);
  const first = stops.some((s) => s.id === stop)
    ? stop
    : (stops.find((s) => s.id.startsWith("outlet."))?.id ?? stops[0]?.id ?? "");

  const focusOn = (id: string) => {
    setStop(id);
    svg.current?.querySelector<SVGGElement>(`[data-stop="${CSS.escape(id)}"]`)?.focus();
  };
  const keyed = (e: KeyboardEvent) => {
    const arrow = e.shiftKey ? undefined : arrows[e.key];
    const command = commandOf(e);
    if (e.key === "Enter" || e.key === " ") {
      const id = idOf(e);
      if (id !== "") chosen.value = id;
    } else if (arrow) focusOn(next(stops, first, arrow));
    else if (command) command.run(size);
    else return;
    e.preventDefault();
  };
  const given = new Set<string>();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing in SVG has no fieldset
    <svg
      ref={svg}
      class={`drawing${zoom > 1 ? " zoomed" : ""}`}
      role="group"
      aria-label={label}
      onKeyDown={keyed}
      onClick={(e) => {
        const id = idOf(e);
        chosen.value = walkable.test(id) ? id : "";
        if (walkable.test(id)) setStop(id);
      }}
      onPointerOver={(e) => light(...(idOf(e) ? [idOf(e)] : []))}
      onPointerLeave={() => light()}
    >
      <g transform={`translate(${x} ${y})`}>
        {size.width > 0 &&
          groups(scene).map((layer) => (
            <g key={layer.layer} class={`layer-${layer.layer}`}>
              {layer.groups.map((g) => {
                const stops = walkable.test(g.id) && !given.has(g.id) && layer.layer !== "names";
                if (stops) given.add(g.id);
                const state = `${lit.value.has(g.id) ? " lit" : ""}${route.value.has(g.id) ? " on-way" : ""}${g.id !== "" && chosen.value === g.id ? " chosen" : ""}`;
                const title = g.items.find((i) => i.title)?.title;
                const shapes = g.items.map((item, i) => (
                  <Shape
                    key={i}
                    item={item}
                    frame={frame}
                    hit={walkable.test(g.id) && item.id !== undefined}
                  />
                ));
                return stops ? (
                  // biome-ignore lint/a11y/useSemanticElements: inside SVG there is no button element
                  <g
                    key={g.key}
                    class={`thing${layer.layer === "lines" ? "" : " boxed"}${state}`}
                    data-id={g.id}
                    data-stop={g.id}
                    role="button"
                    tabindex={g.id === first ? 0 : -1}
                    aria-label={nameOf(g, title)}
                    aria-pressed={chosen.value === g.id}
                  >
                    {title && <title>{title}</title>}
                    {shapes}
                  </g>
                ) : (
                  <g key={g.key} class={`quiet${state}`} data-id={g.id || undefined}>
                    {title && <title>{title}</title>}
                    {shapes}
                  </g>
                );
              })}
            </g>
          ))}
      </g>
    </svg>
  );
}
