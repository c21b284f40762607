import type { Catalogue, CatalogueKind, JobPart } from "../../api/types.gen.ts";

// What may be placed, as the picker lists it, without anything of the page.

/** One thing to be placed: a kind, or a kind with the row that fills in its figures. */
export interface Ware {
  /** Kind and row, as one word. */
  id: string;
  kind: string;
  item: string;
  words: string;
  facts: string;
}

export interface Group {
  id: string;
  wares: Ware[];
}

const ware = (kind: string, item: string, words: string, facts = ""): Ware => ({
  id: `${kind} ${item}`,
  kind,
  item,
  words,
  facts,
});

/** In the order in which air comes to them. */
function groupOf(k: CatalogueKind): string {
  if (k.roles.includes("supplies")) return "machines";
  if (k.roles.includes("stores")) return "stores";
  if (k.group === "treatment" || k.group === "valve" || k.group === "drainage") return k.group;
  return k.roles.includes("flexes") || k.roles.includes("gauges") || k.roles.includes("unions")
    ? "other"
    : "";
}

const order = ["machines", "stores", "treatment", "valve", "drainage", "other"];

/** Every ware in its group; drip legs and fittings come with lines and are not listed. */
export function shelf(c: Catalogue): Group[] {
  const groups = new Map<string, Ware[]>(order.map((id) => [id, []]));
  for (const k of c.kinds) {
    const into = groups.get(groupOf(k));
    if (!into || k.ports.length === 0 || k.id === "drip-leg") continue;
    const rows = k.roles.includes("supplies")
      ? c.machines.map((m) => ware(k.id, m.id, m.words, m.facts))
      : c.treatment.filter((t) => t.kind === k.id).map((t) => ware(k.id, t.id, t.words, t.facts));
    into.push(...(rows.length > 0 ? rows : [ware(k.id, "", k.words)]));
  }
  return order.map((id) => ({ id, wares: groups.get(id) ?? [] })).filter((g) => g.wares.length > 0);
}

/** The groups with only the wares that are called as searched for; where none is, those whose figures say it. */
export function search(groups: readonly Group[], text: string): Group[] {
  const wanted = text
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== "");
  const only = (read: (w: Ware) => string) =>
    groups
      .map((g) => ({
        ...g,
        wares: g.wares.filter((w) => wanted.every((t) => read(w).toLowerCase().includes(t))),
      }))
      .filter((g) => g.wares.length > 0);
  const called = only((w) => `${w.words} ${w.kind.replaceAll("-", " ")}`);
  return called.length > 0 ? called : only((w) => `${w.words} ${w.facts}`);
}

/** Figures that the person states for what is to be placed: SI as the file has them. */
export interface Stated {
  name: string;
  volume_L: number;
  set_kPa_g: number;
}

/** The keys that a kind must have and that are not given yet. */
export function lacking(kind: CatalogueKind | undefined, stated: Stated): string[] {
  return (kind?.needs ?? []).filter((key) => {
    if (key === "volume_L") return stated.volume_L <= 0;
    return key === "set_kPa_g" && stated.set_kPa_g <= 0;
  });
}

/** What stands in the file for it beside kind and row. */
export function figuresOf(kind: CatalogueKind, stated: Stated): Partial<JobPart> {
  const out: Partial<JobPart> = {};
  if (kind.needs.includes("volume_L")) out.volume_L = stated.volume_L;
  if (kind.needs.includes("set_kPa_g")) out.set_kPa_g = stated.set_kPa_g;
  if (kind.needs.includes("compressor")) out.compressor = {};
  return out;
}

/** Whether it can be set into a line: air passes through it. */
export const passes = (kind: CatalogueKind): boolean =>
  kind.ports.filter((p) => p.id === "in" || p.id === "out").length === 2;

/** How high over the floor its openings usually are, m: plant by its connection, treatment at eye level. */
export const usualHeight = (kind: CatalogueKind): number =>
  kind.fixes_to === "floor" ? 0.9 : kind.fixes_to === "wall" ? 1.45 : 1.2;

/** The gesture that places it, at a place or into a line. */
export function plantGesture(
  kind: CatalogueKind,
  item: string,
  stated: Stated,
  state: string,
  where: { at: object } | { into: object },
): object {
  const figures = figuresOf(kind, stated);
  return {
    do: "plant",
    kind: kind.id,
    ...(item ? { item } : {}),
    ...(stated.name ? { name: stated.name } : {}),
    ...where,
    ...(state === "planned" || state === "" ? {} : { state }),
    ...(Object.keys(figures).length > 0 ? { figures: { kind: kind.id, ...figures } } : {}),
  };
}
