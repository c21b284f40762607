import type { Start as Offered } from "../api/types.gen.ts";
import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import { type Corner, ell, type Flat, type OnWall, oblong, type Side, sides } from "./outline.ts";

export type System = "metric" | "us" | "mixed";

/** What was typed for a quantity, and what the program understood. text null: nothing typed, the usual holds. */
export interface Figure {
  text: string | null;
  si: number | null;
  /** The program's words for it. */
  echo: string;
}

export const untouched: Figure = { text: null, si: null, echo: "" };

export interface DoorAnswer {
  key: number;
  wall: string;
  kind: string;
  /** To its near side; null is the middle. */
  along: number | null;
}

export interface PlaceAnswer extends OnWall {
  key: number;
  name: string;
  tools: readonly string[];
}

/** The five answers as they stand on the page. */
export interface Draft {
  existing: boolean;
  title: string;
  units: System;
  shape: "four" | "ell";
  width: Figure;
  depth: Figure;
  height: Figure;
  corner: Corner;
  notchWidth: Figure;
  notchDepth: Figure;
  madeOf: string;
  climate: string;
  /** Outside, on the coldest night. */
  cold: Figure;
  doors: readonly DoorAnswer[];
  source: "unknown" | "listed" | "plate";
  machine: string;
  free: Figure;
  at: Figure;
  cutIn: Figure;
  cutOut: Figure;
  power: Figure;
  receiver: Figure;
  stand: OnWall | null;
  /** How many of each class. */
  tools: Readonly<Record<string, number>>;
  pick: boolean;
  /** null: one place for each tool. */
  spread: number | null;
  places: readonly PlaceAnswer[];
  hose: Figure;
  outletUp: Figure;
  budget: string;
  stock: string;
}

const foot = 0.3048;

/** What holds where nothing is typed, m: a shop of common size in round figures of the units. */
const usually = {
  metric: { width: 8, depth: 6, height: 3, notchWidth: 3, notchDepth: 2 },
  us: { width: 26 * foot, depth: 20 * foot, height: 10 * foot, notchWidth: 10 * foot, notchDepth: 7 * foot },
};

export type RoomLength = keyof typeof usually.metric;

export const usual = (d: Draft, key: RoomLength): number => usually[d.units === "us" ? "us" : "metric"][key];

/** A length of the room in metres; null where what was typed cannot be read. */
export const lengthOf = (d: Draft, key: RoomLength): number | null =>
  d[key].text === null ? usual(d, key) : d[key].si;

export function firstDraft(units: System, existing = false): Draft {
  return {
    existing,
    title: "",
    units,
    shape: "four",
    width: untouched,
    depth: untouched,
    height: untouched,
    corner: "ne",
    notchWidth: untouched,
    notchDepth: untouched,
    madeOf: "",
    climate: "heated",
    cold: untouched,
    doors: [{ key: 1, wall: "south", kind: "door", along: null }],
    source: existing ? "plate" : "unknown",
    machine: "",
    free: untouched,
    at: untouched,
    cutIn: untouched,
    cutOut: untouched,
    power: untouched,
    receiver: untouched,
    stand: null,
    tools: { "blow-gun": 2, "impact-wrench-1/2": 1, ratchet: 1 },
    pick: false,
    spread: null,
    places: [],
    hose: untouched,
    outletUp: untouched,
    budget: "",
    stock: "",
  };
}

/** The outline of the room, counterclockwise; null where its lengths make none. */
export function outlineOf(d: Draft): Flat[] | null {
  const w = lengthOf(d, "width");
  const deep = lengthOf(d, "depth");
  if (!w || !deep) return null;
  if (d.shape === "four") return oblong(w, deep);
  return ell(w, deep, d.corner, lengthOf(d, "notchWidth") ?? 0, lengthOf(d, "notchDepth") ?? 0);
}

export function sidesOf(d: Draft): Side[] {
  const outline = outlineOf(d);
  return outline ? sides(outline) : [];
}

export const toolCount = (d: Draft): number => Object.values(d.tools).reduce((sum, n) => sum + n, 0);

/** How many places the plan gets. */
export const placeCount = (d: Draft, most = 60): number =>
  d.pick ? d.places.length : Math.min(d.spread ?? Math.max(1, toolCount(d)), most);

/** The body of the answers. Lengths that cannot be read are left out: the program says what it wants there. */
export function answersOf(d: Draft): object {
  const out: Record<string, unknown> = { units: d.units, room: roomOf(d), tools: toolsOf(d) };
  if (d.title.trim() !== "") out.title = d.title.trim();
  const compressor = compressorOf(d);
  if (Object.keys(compressor).length > 0) out.compressor = compressor;
  if (d.pick && d.places.length > 0)
    out.places = d.places.map((p) => ({ name: p.name.trim(), wall: p.wall, along_m: tidy(p.along) }));
  else out.spread = placeCount({ ...d, pick: false });
  if (d.hose.si !== null) out.hose_m = tidy(d.hose.si);
  if (d.outletUp.si !== null) out.outlet_up_m = tidy(d.outletUp.si);
  if (d.budget.trim() !== "") out.budget = d.budget.trim();
  if (d.stock !== "") out.stock = d.stock;
  return out;
}

/** To the millimetre, as a plan states it. */
const tidy = (m: number): number => Math.round(m * 1000) / 1000;

function roomOf(d: Draft): object {
  const room: Record<string, unknown> = { height_m: tidy(lengthOf(d, "height") ?? 0), climate: d.climate };
  const outline = outlineOf(d);
  if (d.shape === "ell" && outline) room.outline_m = outline.map(([x, y]) => [tidy(x), tidy(y)]);
  else {
    room.width_m = tidy(lengthOf(d, "width") ?? 0);
    room.depth_m = tidy(lengthOf(d, "depth") ?? 0);
  }
  if (d.madeOf !== "") room.made_of = d.madeOf;
  if (d.climate !== "heated" && d.cold.si !== null) room.cold_C = Number((d.cold.si - 273.15).toFixed(3));
  room.doors = d.doors.map((door) => ({
    wall: door.wall,
    kind: door.kind,
    ...(door.along === null ? {} : { along_m: tidy(door.along) }),
  }));
  return room;
}

/** Figures of the plate in the units of the file: kPa, kW, L. */
const plateKeys = [
  ["at", "at_kPa_g", 1e-3],
  ["cutIn", "cut_in_kPa_g", 1e-3],
  ["cutOut", "cut_out_kPa_g", 1e-3],
  ["power", "power_kW", 1e-3],
  ["receiver", "volume_L", 1e3],
] as const;

function compressorOf(d: Draft): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  if (d.source === "listed" && d.machine !== "") out.machine = d.machine;
  if (d.source === "plate") {
    if (d.free.si !== null && d.free.text) out.free_air = { m3_s: d.free.si, read: d.free.text };
    for (const [key, name, scale] of plateKeys) {
      const si = d[key].si;
      if (si !== null) out[name] = Number((si * scale).toPrecision(9));
    }
  }
  if (d.stand) out.place = { wall: d.stand.wall, along_m: tidy(d.stand.along) };
  return out;
}

function toolsOf(d: Draft): object[] {
  return Object.entries(d.tools)
    .filter(([, n]) => n > 0)
    .map(([item, count]) => {
      const at = d.pick ? d.places.filter((p) => p.tools.includes(item)).map((p) => p.name.trim()) : [];
      return { item, count, ...(at.length > 0 ? { at } : {}) };
    });
}

/** What was typed and could not be read, by question; the plan is not asked for before it can. */
export function unread(d: Draft): number[] {
  const bad = (f: Figure) => f.text !== null && f.si === null;
  const room: RoomLength[] =
    d.shape === "ell"
      ? ["width", "depth", "height", "notchWidth", "notchDepth"]
      : ["width", "depth", "height"];
  const out = new Set<number>();
  if (room.some((k) => bad(d[k])) || !outlineOf(d)) out.add(1);
  if (d.climate !== "heated" && bad(d.cold) && d.cold.text !== "") out.add(1);
  if (
    d.source === "plate" &&
    [d.free, d.at, d.cutIn, d.cutOut, d.power, d.receiver].some((f) => bad(f) && f.text !== "")
  )
    out.add(2);
  if (d.pick && d.places.some((p) => p.name.trim() === "")) out.add(4);
  if ([d.hose, d.outletUp].some((f) => bad(f) && f.text !== "")) out.add(4);
  return [...out];
}

/** The question that a key of the answers belongs to. */
export function questionOf(path: string): number {
  const key = path.replace(/^start\.?/, "");
  if (key.startsWith("room")) return 1;
  if (key.startsWith("compressor")) return 2;
  if (key.startsWith("tools")) return 3;
  if (/^(places|spread|hose|outlet)/.test(key)) return 4;
  if (/^(budget|stock|units)/.test(key)) return 5;
  return 1;
}

/** Each answer in one sentence. */
export function sentences(d: Draft, offer: Offered | null): string[] {
  const length = (m: number | null) => (m === null ? "?" : lengthIn(d.units, m));
  const size = say.by(
    length(lengthOf(d, "width")),
    length(lengthOf(d, "depth")),
    length(lengthOf(d, "height")),
  );
  const machine = offer?.machines.find((m) => m.item === d.machine)?.words;
  const plate = [
    d.free.echo,
    d.cutIn.echo && `${say.starts} ${d.cutIn.echo}`,
    d.cutOut.echo && `${say.stops} ${d.cutOut.echo}`,
  ].filter((t) => t !== "");
  const word = (item: string) => offer?.tools.find((t) => t.item === item)?.words ?? item;
  const tools = Object.entries(d.tools)
    .filter(([, n]) => n > 0)
    .map(([item, n]) => (n === 1 ? word(item) : `${n} × ${word(item)}`));
  const stock = offer?.stocks.find((s) => s.stock === d.stock)?.words;
  const units = offer?.units.find((u) => u.word === d.units)?.words ?? d.units;
  return [
    [size, d.shape === "ell" ? say.ell : "", say.doorCount(d.doors.length)].filter(Boolean).join(", "),
    d.source === "listed"
      ? (machine ?? say.unknownAnswer)
      : d.source === "plate" && plate.length > 0
        ? plate.join(", ")
        : say.unknownAnswer,
    tools.length === 0 ? say.noTools : tools.join(", "),
    d.pick ? say.pickAnswer(d.places.length) : say.evenlyAnswer(placeCount(d)),
    [d.budget.trim() || say.noBudget, stock, units].filter(Boolean).join(", "),
  ];
}

const labels: Readonly<Record<string, string>> = {
  width_m: say.width,
  depth_m: say.depth,
  height_m: say.height,
  cold_C: say.cold,
  free_air: say.free,
  at_kPa_g: say.at,
  cut_in_kPa_g: say.cutIn,
  cut_out_kPa_g: say.cutOut,
  power_kW: say.power,
  volume_L: say.receiver,
  hose_m: say.hoses,
  outlet_up_m: say.outletUp,
};

/** What the page calls the field of a key of the answers; "" where the question says enough. */
export const fieldOf = (path: string): string => labels[/[^.]*$/.exec(path)?.[0] ?? ""] ?? "";

/** What was typed with the nearest form in place: where that is a unit alone, the figure before it stays. */
export function mended(text: string, nearest: string): string {
  const figure = /^\s*[\d.,/\s-]*\d/.exec(text)?.[0].trim() ?? "";
  return /\d/.test(nearest) || figure === "" ? nearest : `${figure} ${nearest}`;
}
