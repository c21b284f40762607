import type { Catalogue, CatalogueKind, JobHose, JobOutlet, JobPart, JobTool } from "../../api/types.gen.ts";

// What hangs at an outlet while it is being composed, without anything of the page.

/** What is composed: of a new drop leg all of it, of an outlet that stands what may be changed of it. */
export interface Draft {
  name: string;
  mark: string;
  /** What it hangs at; "" is left to the program. */
  kind: string;
  /** The drain under it; "" for none, or none that is to be added. */
  drain: string;
  valve: boolean;
  takeOff: string;
  /** The size of the leg; "" as the line. */
  size: string;
  hang: readonly JobPart[];
  hose: Omit<JobHose, "id"> | null;
  tools: readonly string[];
}

/** Order in which parts hang, from the line to the hand: water comes off before the pressure is set, oil comes after. */
const ranks: readonly string[] = [
  "isolates",
  "separates",
  "filters",
  "dries",
  "regulates",
  "lubricates",
  "gauges",
  "couples",
];

function rankOf(kind: CatalogueKind | undefined): number {
  // A filter-regulator sets the pressure: it stands where a regulator does.
  const roles = new Set(kind?.roles ?? []);
  const found = ranks.findLastIndex((r) => roles.has(r));
  return found < 0 ? ranks.length : found;
}

/** Parts that may hang at an outlet: air goes in at one side and out at the other, and they need no floor. */
export function hangable(kinds: readonly CatalogueKind[]): CatalogueKind[] {
  const passes = (k: CatalogueKind) => ["in", "out"].every((id) => k.ports.some((p) => p.id === id));
  const wanted = (k: CatalogueKind) =>
    (k.group === "treatment" && k.fixes_to !== "floor") ||
    k.roles.includes("couples") ||
    (k.roles.includes("isolates") && k.id === "ball-valve");
  return kinds.filter((k) => passes(k) && wanted(k)).sort((a, b) => rankOf(a) - rankOf(b));
}

/** Adds a part where it belongs; what hangs there keeps its order. */
export function addPart(d: Draft, part: JobPart, kinds: readonly CatalogueKind[]): Draft {
  const rank = (p: JobPart) => rankOf(kinds.find((k) => k.id === p.kind));
  const at = d.hang.findIndex((p) => rank(p) > rank(part));
  const hang = [...d.hang];
  hang.splice(at < 0 ? hang.length : at, 0, part);
  return { ...d, hang };
}

export const takeOffPart = (d: Draft, i: number): Draft => ({ ...d, hang: d.hang.filter((_, k) => k !== i) });

export const changePart = (d: Draft, i: number, part: JobPart): Draft => ({
  ...d,
  hang: d.hang.map((p, k) => (k === i ? part : p)),
});

/** One place up (−1) or down (1); at the end nothing happens. */
export function movePart(d: Draft, i: number, by: 1 | -1): Draft {
  const to = i + by;
  const [a, b] = [d.hang[i], d.hang[to]];
  if (!a || !b) return d;
  return { ...d, hang: d.hang.map((p, k) => (k === i ? b : k === to ? a : p)) };
}

/** The row of the catalogue that a part is, or another one. */
export function withItem(part: JobPart, item: string): JobPart {
  const { item: _, size: __, ...rest } = part;
  return item === "" ? rest : { ...rest, item };
}

/** The commonest of some words; "" where there are none. */
export function commonest(of: readonly string[]): string {
  const count = new Map<string, number>();
  for (const s of of) if (s !== "") count.set(s, (count.get(s) ?? 0) + 1);
  return [...count].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]))[0]?.[0] ?? "";
}

/** The coupler that the shop has most of: one profile in the whole shop is the rule of the trade. */
export function profileOf(outlets: readonly JobOutlet[], tools: readonly JobTool[]): string {
  const atOutlets = outlets.flatMap((o) =>
    (o.hang ?? []).map((p) => (p.kind === "coupler" ? (p.item ?? "") : "")),
  );
  return commonest(atOutlets) || commonest(tools.map((t) => t.plug ?? ""));
}

/** What hangs at a drop leg where nothing is known: a drained block behind a valve, a coupler, a hose. */
export function preset(
  c: Catalogue,
  outlets: readonly JobOutlet[],
  tools: readonly JobTool[],
  us: boolean,
): Draft {
  const hoses = outlets.flatMap((o) => (o.hose ? [o.hose] : []));
  const profile = profileOf(outlets, tools) || usualProfile(c, us);
  const hose = commonest(hoses.map((h) => h.item)) || usualHose(c);
  const drained = c.kinds.find((k) => k.roles.includes("outlet") && k.roles.includes("collects"));
  const cock = c.kinds.find((k) => k.roles.includes("drains") && !k.roles.includes("automatic"));
  return {
    name: "",
    mark: "",
    kind: drained?.id ?? "",
    drain: drained ? (cock?.id ?? "") : "",
    valve: true,
    takeOff: "top",
    size: "",
    hang: profile === "" ? [] : [{ kind: "coupler", item: profile }],
    hose:
      hose === ""
        ? null
        : {
            item: hose,
            length_m: us ? 7.62 : 7.5,
            ...(profile === "" ? {} : { plug: profile, socket: profile }),
          },
    tools: [],
  };
}

function usualProfile(c: Catalogue, us: boolean): string {
  const wish = us ? "industrial" : "euro-7.2";
  return (c.couplers.find((k) => k.profile === wish) ?? c.couplers.find((k) => !k.socket_only))?.id ?? "";
}

/** A hose of a bore that feeds most hand tools, 9 to 10 mm. */
const usualHose = (c: Catalogue): string =>
  [...c.hoses].sort((a, b) => Math.abs(a.bore_mm - 9.5) - Math.abs(b.bore_mm - 9.5))[0]?.id ?? "";

const letter = (n: number): string => {
  const low = String.fromCharCode(65 + (n % 26));
  return n < 26 ? low : letter(Math.floor(n / 26) - 1) + low;
};

/** The next mark that no outlet has: letters, or numbers where the shop marks by numbers. */
export function nextMark(outlets: readonly JobOutlet[]): string {
  const taken = new Set(outlets.map((o) => o.mark ?? ""));
  const numbers = outlets.some((o) => /^\d+$/.test(o.mark ?? ""));
  for (let n = 0; ; n++) {
    const mark = numbers ? `${n + 1}` : letter(n);
    if (!taken.has(mark)) return mark;
  }
}

/** A name that no outlet has: the one given with the next number behind it. */
export function nextName(outlets: readonly JobOutlet[], base: string): string {
  const taken = new Set(outlets.map((o) => o.name));
  const stem = base.replace(/\s+\d+$/, "");
  for (let n = 1; ; n++) {
    const name = `${stem} ${n}`;
    if (!taken.has(name)) return name;
  }
}

/** Another one of the kind: parts without their ids, a name and a mark of its own. */
export function alike(d: Draft, outlets: readonly JobOutlet[], base: string): Draft {
  const hang = d.hang.map(({ id: _, ...part }) => part);
  return { ...d, hang, name: nextName(outlets, d.name || base), mark: nextMark(outlets) };
}

/** An outlet that stands, as it may be composed anew. */
export function draftOf(o: JobOutlet, kind: string): Draft {
  const { id: _, ...hose } = o.hose ?? { id: "", item: "", length_m: 0 };
  return {
    name: o.name,
    mark: o.mark ?? "",
    kind,
    drain: "",
    valve: false,
    takeOff: "top",
    size: "",
    hang: o.hang ?? [],
    hose: o.hose ? hose : null,
    tools: o.tools ?? [],
  };
}

const hangs = (d: Draft) => ({
  hang: d.hang,
  // The program finds the id: that of the hose that hangs there, or a fresh one.
  ...(d.hose ? { hose: { id: "", ...d.hose } } : {}),
  tools: d.tools,
});

/** The gesture that hangs a new drop leg. */
export function dropGesture(d: Draft, from: object, to: object, state: string, stock: string): object {
  const { name, mark, kind, drain } = d;
  return {
    do: "drop",
    from,
    to,
    ...(d.size === "" ? {} : { stock, size: d.size }),
    take_off: d.takeOff,
    ...(state === "planned" || state === "" ? {} : { state }),
    ...(d.valve ? { valve: true } : {}),
    outlet: {
      name,
      ...(mark ? { mark } : {}),
      ...(kind ? { kind } : {}),
      ...(drain ? { drain } : {}),
      ...hangs(d),
    },
  };
}

/** The gesture that composes an outlet anew. */
export function composeGesture(d: Draft, where: { outlet: string } | { point: string }): object {
  return {
    do: "compose",
    ...where,
    name: d.name,
    ...(d.mark || "outlet" in where ? { mark: d.mark } : {}),
    ...("outlet" in where && d.kind ? { kind: d.kind } : {}),
    ...(d.drain ? { drain: d.drain } : {}),
    ...hangs(d),
  };
}
