import assert from "node:assert/strict";
import test from "node:test";
import type { ScreenPiece } from "../../api/types.gen.ts";
import { bypassable, joinAt, middleOf, stateOf, stretchOf } from "./act.ts";

const piece = (id: string, thing: object, more: Partial<ScreenPiece> = {}): [string, ScreenPiece] => [
  id,
  { id, what: "", words: id, thing, ...more },
];
const run = (id: string, from: string, to: string, state?: string) =>
  piece(
    id,
    { from: { point: from }, to: { point: to }, ...(state ? { state } : {}) },
    {
      line_m: [
        [0, 0, 0],
        [3, 0, 0],
        [3, 1, 0],
      ],
    },
  );
const point = (id: string, kind: string) => piece(id, { part: { kind } }, { at_m: [0, 0, 0] });

// a -1- b -2- c(tee) -3- d(filter) -4- e(outlet); the branch 5 leaves c for f
const shop = new Map([
  point("point.a", "cap"),
  point("point.b", "joint"),
  point("point.c", "tee"),
  point("point.d", "filter"),
  point("point.e", "drop-elbow"),
  point("point.f", "cap"),
  run("line.1", "point.a", "point.b"),
  run("line.2", "point.b", "point.c", "existing"),
  run("line.3", "point.c", "point.d"),
  run("line.4", "point.d", "point.e"),
  run("line.5", "point.c", "point.f"),
  piece("outlet.e", { point: "point.e" }),
]);

test("a stretch goes on to the next branch on both sides", () => {
  assert.deepEqual(stretchOf(shop, "line.1").sort(), ["line.1", "line.2"]);
  assert.deepEqual(stretchOf(shop, "line.4").sort(), ["line.3", "line.4"]);
  assert.deepEqual(stretchOf(shop, "line.5"), ["line.5"]);
});

test("joined is at a plain joint, or where two chosen runs meet and nothing else", () => {
  assert.equal(joinAt(shop, ["point.b"]), "point.b");
  assert.equal(joinAt(shop, ["line.2", "line.1"]), "point.b");
  assert.equal(joinAt(shop, ["point.d"]), "");
  assert.equal(joinAt(shop, ["line.2", "line.3"]), "");
  assert.equal(joinAt(shop, ["line.1", "line.4"]), "");
});

test("a state is told where all have it; an outlet has its point's", () => {
  assert.equal(stateOf(shop, ["line.2"]), "existing");
  assert.equal(stateOf(shop, ["line.1", "line.2"]), "");
  assert.equal(stateOf(shop, ["outlet.e"]), "planned");
});

test("a bypass leads round treatment in a line only", () => {
  const treats = (kind: string) => kind === "filter";
  assert.deepEqual(bypassable(shop, ["point.d"], treats), ["point.d"]);
  assert.deepEqual(bypassable(shop, ["point.b"], treats), []);
  assert.deepEqual(bypassable(shop, ["point.d", "point.b"], treats), []);
});

test("the middle of a run is along its way", () => {
  assert.equal(middleOf(shop, "line.1"), 2);
});
