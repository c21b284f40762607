import { withUnit } from "../state/unit.ts";

/** One outlet of a chain, on from the one before; figures as typed. */
export interface Branch {
  main: string;
  mainSize: string;
  drop: string;
  dropSize: string;
  name: string;
  coupler: boolean;
  hose: string;
  hoseSize: string;
  /** A class of the catalogue; "" is by its plate. */
  item: string;
  toolName: string;
  takes: string;
  at: string;
}

/** The main parts of an installation, as typed. */
export interface Chain {
  flow: string;
  cutIn: string;
  cutOut: string;
  volume: string;
  treated: readonly string[];
  set: string;
  branches: readonly Branch[];
}

export const branch = (system: string, mainSize = ""): Branch => ({
  main: "",
  mainSize: mainSize || (system === "us" ? "3/4" : "20"),
  drop: "",
  dropSize: system === "us" ? "1/2" : "16",
  name: "",
  coupler: true,
  hose: "",
  hoseSize: "3/8",
  item: "",
  toolName: "",
  takes: "",
  at: "",
});

export const firstChain = (system: string): Chain => ({
  flow: "",
  cutIn: "",
  cutOut: "",
  volume: "",
  treated: ["filter"],
  set: "",
  branches: [branch(system)],
});

/** The parts that every search wants are there. */
export const enough = (c: Chain): boolean =>
  [c.flow, c.cutIn, c.cutOut, c.volume].every((t) => t.trim() !== "") &&
  c.branches.every((b) => b.main.trim() !== "" && b.drop.trim() !== "") &&
  c.branches.every((b) => b.item !== "" || (b.takes.trim() !== "" && b.at.trim() !== ""));

const columns = [
  "part",
  "name",
  "item",
  "size",
  "length",
  "flow",
  "pressure",
  "cut-in",
  "cut-out",
  "volume",
] as const;

type Row = Partial<Record<(typeof columns)[number], string>> & { part: string };

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** The chain as the table that the program reads. */
export function tableOf(c: Chain, system: string): string {
  const length = (t: string) => withUnit("length", t, system);
  const gauge = (t: string) => withUnit("gauge pressure", t, system);
  const flow = (t: string) => withUnit("flow of free air", t, system);
  const size = c.branches[0]?.mainSize ?? "";
  const rows: Row[] = [
    { part: "compressor", size, flow: flow(c.flow), "cut-in": gauge(c.cutIn), "cut-out": gauge(c.cutOut) },
    { part: "receiver", volume: withUnit("volume", c.volume, system) },
    ...c.treated.map((part) => ({ part, ...(part === "regulator" ? { pressure: gauge(c.set) } : {}) })),
  ];
  for (const b of c.branches) {
    rows.push({ part: "main", size: b.mainSize, length: length(b.main) });
    rows.push({ part: "drop", name: b.name.trim(), size: b.dropSize, length: length(b.drop) });
    if (b.coupler) rows.push({ part: "coupler" });
    if (b.hose.trim() !== "") {
      rows.push({ part: "hose", size: b.hoseSize, length: length(b.hose) });
      if (b.coupler) rows.push({ part: "coupler" });
    }
    rows.push({
      part: "tool",
      name: b.toolName.trim(),
      item: b.item,
      ...(b.item === "" ? { flow: flow(b.takes), pressure: gauge(b.at) } : {}),
    });
  }
  return [columns.join(","), ...rows.map((r) => columns.map((k) => quoted(r[k] ?? "")).join(","))].join("\n");
}
