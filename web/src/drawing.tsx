import { computed, useSignalEffect } from "@preact/signals";
import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { commandOf } from "./commands/commands.ts";
import { isThing, LayerOf } from "./paint/group.tsx";
import { Proposed } from "./paint/over.tsx";
import { restFrame } from "./paint/rest.ts";
import { centre } from "./paint/scene.tsx";
import { light } from "./state/ask.ts";
import { drawnView, sentence, sheet } from "./state/live.ts";
import { look, measure, pane, rest, transformOf } from "./state/look.ts";
import { measured, pixelsPerMM } from "./state/paper.ts";
import { FloorPicture } from "./tools/building/picture.tsx";
import { Sizes } from "./tools/building/sizes.tsx";
import { stop, toolKeyed } from "./tools/keys.ts";
import { Cross, ReadOut } from "./tools/over.tsx";
import { idOf, layHand } from "./tools/pointer.ts";
import { tool } from "./tools/tool.ts";
import { Typed } from "./tools/typed.tsx";
import { next, type Stop, type Way } from "./tools/walk.ts";
import { words } from "./words/words.ts";

/** Margin in mm round the geometry on the screen; the sheet is laid out for the same. */
const margin = 6 * pixelsPerMM;

const narrow = () => matchMedia("(max-width: 899px)").matches;

const arrows: Record<string, Way> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};

/** Every thing once, where it stands. */
const stops = computed<Stop[]>(() => {
  const out = new Map<string, Stop>();
  for (const layer of sheet.layers.value) {
    for (const group of layer.groups.value) {
      if (!isThing(group, layer.id) || out.has(group.id)) continue;
      const at = group.items.value.map((i) => centre(i, restFrame.value)).find((c) => c !== null);
      if (at) out.set(group.id, { id: group.id, x: at[0], y: at[1] });
    }
  }
  return [...out.values()];
});

/** The thing that the Tab key comes to: the one left last, else an outlet. */
const first = computed(() => {
  const all = stops.value;
  if (all.some((s) => s.id === stop.value)) return stop.value;
  return all.find((s) => s.id.startsWith("outlet."))?.id ?? all[0]?.id ?? "";
});

/** Which things earlier layers have made stops, by layer. */
const taken = computed(() => {
  const seen = new Set<string>();
  return sheet.layers.value.map((layer) => {
    const before = new Set(seen);
    for (const g of layer.groups.value) if (isThing(g, layer.id)) seen.add(g.id);
    return before;
  });
});

function Layers() {
  return (
    <>
      {sheet.layers.value.map((layer, i) => (
        <LayerOf key={layer.id} layer={layer} first={first.value} taken={taken.value[i] ?? new Set()} />
      ))}
    </>
  );
}

function Overlay() {
  const Over = tool.value?.Over;
  return (
    <g class="over">
      {Over && <Over />}
      <Cross />
    </g>
  );
}

/** Follows the window's size; the sheet is laid out for it. */
function watchSize(element: SVGSVGElement, take: () => void): () => void {
  const watch = new ResizeObserver(() => {
    const box = element.getBoundingClientRect();
    take();
    // On a phone the page scrolls and the window follows the drawing, so its height cannot say what to draw.
    measured(box.width, narrow() ? innerHeight * 0.72 : box.height);
  });
  watch.observe(element);
  return () => watch.disconnect();
}

/** Lights what has the focus. On the parent: a drawing that listens for the focus itself becomes a stop of its own. */
function watchFocus(parent: Element): () => void {
  const focused = (e: Event) => light(...(idOf(e) ? [idOf(e)] : []));
  const left = () => light();
  parent.addEventListener("focusin", focused);
  parent.addEventListener("focusout", left);
  return () => {
    parent.removeEventListener("focusin", focused);
    parent.removeEventListener("focusout", left);
  };
}

/** On a phone the drawing is as high as it needs to be. Set on the element, as its height follows what is drawn. */
function fitHeight(box: HTMLElement, width: number): void {
  const { min, max } = sheet.extent.value;
  const w = Math.max(max[0] - min[0], 1e-6);
  const height = Math.min(((width - 2 * margin) * (max[1] - min[1])) / w + 2 * margin, innerHeight * 0.72);
  box.style.height = narrow() ? `${Math.round(Math.max(height, 220))}px` : "";
}

function keyed(e: KeyboardEvent, svg: SVGSVGElement | null): void {
  const focusOn = (id: string) => {
    stop.value = id;
    svg?.querySelector<SVGGElement>(`[data-stop="${CSS.escape(id)}"]`)?.focus();
  };
  const arrow = e.shiftKey || e.altKey || e.ctrlKey ? undefined : arrows[e.key];
  const command = commandOf(e, "drawing");
  if (toolKeyed(e, idOf(e))) e.preventDefault();
  else if (arrow) {
    focusOn(next(stops.value, first.value, arrow));
    e.preventDefault();
  } else if (command) {
    command.run();
    e.preventDefault();
  }
}

/** Measures the window, lays the hand on it and moves the shapes as they are looked at. */
function useWindow(svg: RefObject<SVGSVGElement | null>, shapes: RefObject<SVGGElement | null>): void {
  const seen = useRef("");
  const take = () => {
    const box = svg.current?.getBoundingClientRect();
    if (!box) return;
    const { min, max } = sheet.extent.value;
    const anew = seen.current !== drawnView.value;
    measure({ min, max }, { width: box.width, height: box.height }, margin, anew);
    seen.current = drawnView.value;
    const around = svg.current?.closest<HTMLElement>(".sheet");
    if (around) fitHeight(around, box.width);
  };
  useEffect(() => {
    const element = svg.current;
    const parent = element?.parentElement;
    if (!element || !parent) return;
    const ends = [watchSize(element, take), layHand(element), watchFocus(parent)];
    return () => {
      for (const end of ends) end();
    };
  }, []);
  useSignalEffect(take);
  useSignalEffect(() => {
    shapes.current?.setAttribute("transform", transformOf(rest.value, look.value));
  });
}

/**
 * A tool that places things is worked from one spot: the keyboard's cursor begins there.
 * Put down, it leaves the keys where something can be chosen.
 */
function usePad(
  pad: RefObject<HTMLDivElement | null>,
  svg: RefObject<SVGSVGElement | null>,
  placing: boolean,
): void {
  const placed = useRef(false);
  useEffect(() => {
    // A click on bare ground takes the focus from the pad; the keys are still the tool's: a length is typed from there.
    const back = () => {
      if (document.activeElement === document.body) pad.current?.focus({ preventScroll: true });
    };
    // The mouse over the drawing: digits are meant for the place under it, not for the button clicked before.
    const come = (e: PointerEvent) => {
      const now = document.activeElement;
      const typed = now?.matches("input:not([type=radio]):not([type=checkbox]), textarea, select");
      if (e.pointerType === "mouse" && e.buttons === 0 && !typed && now !== pad.current)
        pad.current?.focus({ preventScroll: true });
    };
    const drawing = svg.current;
    drawing?.addEventListener("click", back);
    drawing?.addEventListener("pointermove", come);
    return () => {
      drawing?.removeEventListener("click", back);
      drawing?.removeEventListener("pointermove", come);
    };
  }, []);
  // At once: what is typed meanwhile has its own field, and the pad must not take the keys from it later.
  useLayoutEffect(() => {
    const lost = placed.current && document.activeElement === document.body;
    if (placing && document.activeElement?.closest(".sheet, .rail")) pad.current?.focus();
    else if (lost) document.querySelector<HTMLElement>(".drawing [tabindex='0'], .rail .held")?.focus();
    placed.current = placing;
  }, [tool.value?.id]);
}

/** The drawing with things to choose, and whatever the tool in the hand paints over it. */
export function Drawing() {
  const svg = useRef<SVGSVGElement>(null);
  const pad = useRef<HTMLDivElement>(null);
  const shapes = useRef<SVGGElement>(null);
  const placing = tool.value?.set !== undefined;
  useWindow(svg, shapes);
  usePad(pad, svg, placing);
  const { width, height } = pane.value;
  const label = `${sheet.title.value}. ${sentence.value}`;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: what is inside takes the keys
    <div class={`hand-space${placing ? " placing" : ""}`} onKeyDown={(e) => keyed(e, svg.current)}>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing in SVG has no fieldset */}
      <svg
        ref={svg}
        class="drawing"
        role="group"
        aria-label={sheet.title.value === "" ? words.loading : label}
        viewBox={width > 0 ? `0 0 ${width} ${height}` : undefined}
        onPointerOver={(e) => {
          // What is carried lies over everything: nothing else is pointed at.
          if (e.buttons === 0) light(...(idOf(e) ? [idOf(e)] : []));
        }}
        onPointerLeave={() => light()}
      >
        <g ref={shapes}>
          <FloorPicture />
          {width > 0 && <Layers />}
          {width > 0 && <Proposed />}
        </g>
        <Overlay />
      </svg>
      {placing && (
        <div
          ref={pad}
          class="cursor-pad"
          role="application"
          aria-label={words.cursor}
          aria-describedby="hint"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the cursor is moved from here by the arrow keys
          tabIndex={0}
        />
      )}
      <Sizes />
      <ReadOut />
      <Typed
        done={() => (pad.current ?? svg.current?.querySelector<SVGGElement>("[tabindex='0']"))?.focus()}
      />
    </div>
  );
}
