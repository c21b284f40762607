import { useComputed } from "@preact/signals";
import { lit, selection } from "../state/ask.ts";
import { route } from "../state/data.ts";
import type { Group, Layer } from "../state/scene.ts";
import { damp } from "../state/water.ts";
import { restFrame } from "./rest.ts";
import { Shape } from "./scene.tsx";

/** Layers whose groups are words or marks about things, not the things. */
const wordsOnly: ReadonlySet<string> = new Set(["names", "figures", "marks", "supports"]);

/** Whether a group is something to be chosen. */
export const isThing = (g: Group, layer: string): boolean => g.id !== "" && !wordsOnly.has(layer);

/** What is written at a thing comes first in its name, so that saying what one sees reaches it. */
function nameOf(group: Group, title: string | undefined): string {
  const written = group.items.value.flatMap((i) => (i.text ? [i.text.text] : []));
  return [...(written.length > 0 ? [written.join(" ")] : []), title ?? group.id].join(", ");
}

interface Painted {
  group: Group;
  layer: string;
  /** The first group of its thing: it is the stop, the others are only painted. */
  stop: boolean;
  /** The thing that the Tab key comes to. */
  first: string;
}

/** One group: painted anew when its items change or the drawing has come to rest at another scale. */
function GroupOf({ group, layer, stop, first }: Painted) {
  const { id } = group;
  const state = useComputed(() => {
    const marks = [
      lit.value.has(id) ? "lit" : "",
      route.value.has(id) ? "on-way" : "",
      damp.value.get(id) ?? "",
    ];
    return [...marks, id !== "" && selection.value.includes(id) ? "chosen" : ""]
      .filter((m) => m !== "")
      .join(" ");
  });
  const items = group.items.value;
  const frame = restFrame.value;
  const title = items.find((i) => i.title)?.title;
  const hit = isThing(group, layer);
  const shapes = items.map((item, i) => (
    <Shape key={i} item={item} frame={frame} hit={hit && item.id !== undefined} />
  ));
  if (!stop)
    return (
      <g class={`quiet ${state.value}`} data-id={id || undefined}>
        {title && <title>{title}</title>}
        {shapes}
      </g>
    );
  const kind = layer === "lines" ? "" : " boxed";
  return (
    // biome-ignore lint/a11y/useSemanticElements: inside SVG there is no button element
    <g
      class={`thing${kind} ${state.value}`}
      data-id={id}
      data-stop={id}
      role="button"
      tabindex={id === first ? 0 : -1}
      aria-label={nameOf(group, title)}
      aria-pressed={state.value.endsWith("chosen")}
    >
      {title && <title>{title}</title>}
      {shapes}
    </g>
  );
}

interface LayerProps {
  layer: Layer;
  first: string;
  /** Things that an earlier layer has made a stop. */
  taken: ReadonlySet<string>;
}

/** One layer: painted anew when groups come, go or change their order. */
export function LayerOf({ layer, first, taken }: LayerProps) {
  const given = new Set<string>();
  return (
    <g class={`layer-${layer.id}`}>
      {layer.groups.value.map((g) => {
        const stop = isThing(g, layer.id) && !given.has(g.id) && !taken.has(g.id);
        if (stop) given.add(g.id);
        return (
          <GroupOf key={g.key} group={g} layer={layer.id} stop={stop} first={g.id === first ? first : ""} />
        );
      })}
    </g>
  );
}
