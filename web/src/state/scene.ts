import { batch, type Signal, signal } from "@preact/signals";
import type { SceneItem, SceneLayerPatch, ScenePatch } from "../api/types.gen.ts";

/** Items of one layer that belong to one thing: painted together, and anew only when one of them changes. */
export interface Group {
  key: string;
  /** The thing; "" for what belongs to none. */
  id: string;
  items: Signal<readonly SceneItem[]>;
}

export interface Layer {
  id: string;
  title: string;
  groups: Signal<readonly Group[]>;
}

export interface Extent {
  min: readonly [number, number];
  max: readonly [number, number];
}

/** The drawing as the program gave it last. */
export interface Sheet {
  layers: Signal<readonly Layer[]>;
  title: Signal<string>;
  extent: Signal<Extent>;
}

export function emptySheet(): Sheet {
  return {
    layers: signal<readonly Layer[]>([]),
    title: signal(""),
    extent: signal<Extent>({ min: [0, 0], max: [1, 1] }),
  };
}

/** The key of a group is its thing's id, with "#2" behind where it comes again; "#n" alone has no thing. */
const idOf = (key: string): string => key.split("#", 1)[0] ?? "";

function patchLayer(old: Layer | undefined, p: SceneLayerPatch, whole: boolean): Layer {
  const layer: Layer = old ?? { id: p.id, title: p.title, groups: signal<readonly Group[]>([]) };
  const known = new Map(layer.groups.value.map((g) => [g.key, g]));
  let changed = old === undefined;
  for (const [key, items] of Object.entries(p.groups ?? {})) {
    const group = known.get(key);
    if (group) group.items.value = items;
    else {
      known.set(key, { key, id: idOf(key), items: signal<readonly SceneItem[]>(items) });
      changed = true;
    }
  }
  for (const key of p.gone ?? []) changed = known.delete(key) || changed;
  if (whole) {
    const kept = p.groups ?? {};
    for (const key of [...known.keys()]) if (!(key in kept)) changed = known.delete(key) || changed;
  }
  if (p.order) {
    const ordered = p.order.flatMap((key) => known.get(key) ?? []);
    layer.groups.value = ordered;
  } else if (changed) layer.groups.value = [...known.values()];
  return layer;
}

/** Takes what changed. A whole patch is everything: what it does not name is gone. */
export function patchSheet(sheet: Sheet, p: ScenePatch, whole: boolean): void {
  batch(() => {
    const known = new Map(sheet.layers.value.map((l) => [l.id, l]));
    const named = new Map<string, Layer>();
    for (const l of p.layers) named.set(l.id, patchLayer(known.get(l.id), l, whole));
    if (whole) sheet.layers.value = [...named.values()];
    else if ([...named.keys()].some((id) => !known.has(id)))
      sheet.layers.value = [...new Map([...known, ...named]).values()];
    sheet.title.value = p.title;
    const { min, max } = sheet.extent.value;
    if (min[0] !== p.min_m[0] || min[1] !== p.min_m[1] || max[0] !== p.max_m[0] || max[1] !== p.max_m[1])
      sheet.extent.value = { min: p.min_m, max: p.max_m };
  });
}
