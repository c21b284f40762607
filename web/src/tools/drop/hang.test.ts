import assert from "node:assert/strict";
import test from "node:test";
import type { Catalogue, CatalogueKind, JobOutlet, ScreenPiece } from "../../api/types.gen.ts";
import { below, legWay } from "./below.ts";
import {
  addPart,
  alike,
  composeGesture,
  type Draft,
  draftOf,
  dropGesture,
  hangable,
  movePart,
  nextMark,
  nextName,
  preset,
  takeOffPart,
  withItem,
} from "./hang.ts";

const port = (id: string) => ({ id, toward: [1, 0, 0] as [number, number, number], joint: "thread-female" });
const kind = (
  id: string,
  group: CatalogueKind["group"],
  roles: string[],
  more: Partial<CatalogueKind> = {},
) => ({
  id,
  words: id,
  group,
  roles,
  symbol: "",
  ports: [port("in"), port("out")],
  needs: [],
  ...more,
});
const kinds: CatalogueKind[] = [
  kind("coupler", "outlet", ["couples"]),
  kind("lubricator", "treatment", ["lubricates"], { fixes_to: "wall" }),
  kind("filter-regulator", "treatment", ["filters", "regulates"], { fixes_to: "wall" }),
  kind("ball-valve", "valve", ["isolates"]),
  kind("big-dryer", "treatment", ["dries"], { fixes_to: "floor" }),
  kind("wall-block", "outlet", ["outlet", "collects"]),
  kind("drain-cock", "drainage", ["drains"], { ports: [port("in")] }),
];
const shelf = {
  kinds,
  couplers: [
    { id: "euro", words: "", profile: "euro-7.2", body: "" },
    { id: "ind", words: "", profile: "industrial", body: "" },
  ],
  hoses: [
    { id: "thin", words: "", line: "", size: "", bore_mm: 6 },
    { id: "mid", words: "", line: "", size: "", bore_mm: 9.5 },
  ],
} as unknown as Catalogue;

const outlet = (name: string, more: Partial<JobOutlet> = {}): JobOutlet => ({
  id: `outlet.${name}`,
  name,
  point: `point.${name}`,
  ...more,
});

const first = (): Draft => preset(shelf, [], [], false);

test("without any outlet the preset is drained, valved and coupled", () => {
  const d = first();
  assert.deepEqual(
    [d.kind, d.drain, d.valve, d.takeOff, d.hang, d.hose],
    [
      "wall-block",
      "drain-cock",
      true,
      "top",
      [{ kind: "coupler", item: "euro" }],
      { item: "mid", length_m: 7.5, plug: "euro", socket: "euro" },
    ],
  );
  assert.equal(preset(shelf, [], [], true).hang[0]?.item, "ind");
});

test("the shop's one coupler profile goes on", () => {
  const had = [outlet("a", { hang: [{ kind: "coupler", item: "ind" }] })];
  assert.equal(preset(shelf, had, [], false).hang[0]?.item, "ind");
});

test("parts hang in the order of the air, the coupler last", () => {
  let d = first();
  for (const k of ["lubricator", "filter-regulator", "ball-valve"]) d = addPart(d, { kind: k }, kinds);
  assert.deepEqual(
    d.hang.map((p) => p.kind),
    ["ball-valve", "filter-regulator", "lubricator", "coupler"],
  );
  assert.deepEqual(
    movePart(d, 1, 1).hang.map((p) => p.kind),
    ["ball-valve", "lubricator", "filter-regulator", "coupler"],
  );
  assert.equal(movePart(d, 0, -1), d);
  assert.deepEqual(
    takeOffPart(d, 3).hang.map((p) => p.kind),
    ["ball-valve", "filter-regulator", "lubricator"],
  );
});

test("what needs a floor or has one opening does not hang", () => {
  assert.deepEqual(
    hangable(kinds).map((k) => k.id),
    ["ball-valve", "filter-regulator", "lubricator", "coupler"],
  );
});

test("another row takes the size of the old one away", () => {
  assert.deepEqual(withItem({ kind: "coupler", item: "euro", size: "1/4" }, "ind"), {
    kind: "coupler",
    item: "ind",
  });
});

test("names and marks are not taken twice", () => {
  assert.equal(nextName([outlet("Bench 1"), outlet("Bench 2")], "Bench 1"), "Bench 3");
  assert.equal(nextMark([outlet("a", { mark: "A" }), outlet("b", { mark: "C" })]), "B");
  assert.equal(nextMark([outlet("a", { mark: "7" })]), "1");
  const all = Array.from({ length: 26 }, (_, i) => outlet(`${i}`, { mark: String.fromCharCode(65 + i) }));
  assert.equal(nextMark(all), "AA");
});

test("another like it has parts of its own", () => {
  const d = { ...first(), name: "Bench 1", mark: "A", hang: [{ id: "part.x", kind: "coupler" }] };
  const next = alike(d, [outlet("Bench 1", { mark: "A" })], "Outlet");
  assert.deepEqual([next.name, next.mark, next.hang], ["Bench 2", "B", [{ kind: "coupler" }]]);
});

test("the drop gesture says what is not usual; the size brings its stock", () => {
  const g = (d: Draft, state: string) =>
    dropGesture(d, { run: "line.a", along_m: 1 }, { at_m: [0, 0, 1] }, state, "tube");
  const plain = g({ ...first(), name: "Bench", tools: ["tool.a"] }, "planned");
  assert.deepEqual(plain, {
    do: "drop",
    from: { run: "line.a", along_m: 1 },
    to: { at_m: [0, 0, 1] },
    take_off: "top",
    valve: true,
    outlet: {
      name: "Bench",
      kind: "wall-block",
      drain: "drain-cock",
      hang: [{ kind: "coupler", item: "euro" }],
      hose: { id: "", item: "mid", length_m: 7.5, plug: "euro", socket: "euro" },
      tools: ["tool.a"],
    },
  });
  const sized = g({ ...first(), name: "Bench", size: "22" }, "existing") as Record<string, unknown>;
  assert.deepEqual([sized.stock, sized.size, sized.state], ["tube", "22", "existing"]);
});

test("an outlet that stands is composed by what hangs there, its parts by their ids", () => {
  const o = outlet("a", { mark: "A", hang: [{ id: "part.c", kind: "coupler" }], tools: ["tool.a"] });
  assert.deepEqual(composeGesture({ ...draftOf(o, "wall-block"), kind: "", mark: "" }, { outlet: o.id }), {
    do: "compose",
    outlet: "outlet.a",
    name: "a",
    mark: "",
    hang: [{ id: "part.c", kind: "coupler" }],
    tools: ["tool.a"],
  });
});

const wall = (id: string, from: [number, number], to: [number, number]): [string, ScreenPiece] => [
  id,
  { id, what: "wall", words: id, thing: { id, from_m: from, to_m: to, height_m: 3, thickness_m: 0.1 } },
];
const shop = new Map([wall("wall.north", [0, 6], [8, 6]), wall("wall.east", [8, 6], [8, 0])]);

test("the outlet hangs on the nearest wall, else straight below", () => {
  const near = below(shop, [2, 5.9, 2.4], 1.1, 0.06);
  assert.deepEqual(
    [near.wall, near.place],
    ["wall.north", { wall: "wall.north", along_m: 2, up_m: 1.1, off_m: 0.06 }],
  );
  const far = below(shop, [4, 3, 2.4], 2.2, 0.06);
  assert.deepEqual([far.wall, far.place], ["", { at_m: [4, 3, 2.2] }]);
  // In the corner the nearer of the two.
  assert.equal(below(shop, [7.95, 5.6, 2.4], 1.1, 0.06).wall, "wall.east");
  assert.equal(below(shop, [2, 5.9, 2.4], 3.5, 0.06).wall, "");
});

test("from the top the leg goes up and over", () => {
  assert.deepEqual(legWay([0, 0, 2], [0, 1, 1], "top"), [
    [0, 0, 2],
    [0, 0, 2.1],
    [0, 1, 2.1],
    [0, 1, 1],
  ]);
});
