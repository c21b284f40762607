import assert from "node:assert/strict";
import test from "node:test";
import { everything, type Field, find, type Search, type SnapKind } from "./snap.ts";
import type { Vec2 } from "./space.ts";

// A room of 6 by 4 with its south and west wall, a main along the south wall at 3 m, a riser, two points.
const field: Field = {
  points: [
    { id: "point.a", at: [2, 1], depth: 1.2, words: "ball valve" },
    { id: "point.above", at: [2, 1], depth: 3, words: "tee" },
  ],
  lines: [
    {
      id: "line.main",
      words: "main",
      at: [
        [0.5, 2],
        [5.5, 2],
      ],
      depths: [3, 3],
    },
    {
      id: "line.riser",
      words: "riser",
      at: [
        [4, 3],
        [4, 3],
      ],
      depths: [0.5, 3],
    },
  ],
  edges: [
    { id: "wall.south", words: "south wall", from: [6, 0], to: [0, 0], off: [0, 1] },
    { id: "wall.west", words: "west wall", from: [0, 0], to: [0, 4], off: [1, 0] },
  ],
};

const at = (
  p: Vec2,
  more: Partial<Search> = {},
  kinds: ReadonlySet<SnapKind> = everything,
  standoff = 0.05,
) =>
  find(field, p, {
    reach: { kinds, standoff },
    near: 0.1,
    grid: 0.05,
    depth: 2.4,
    from: null,
    over: "",
    ...more,
  });

const close = (a: Vec2, b: Vec2) =>
  assert.ok(Math.abs(a[0] - b[0]) < 1e-9 && Math.abs(a[1] - b[1]) < 1e-9, `${a} is not ${b}`);

test("a point comes before all else, of two over each other the one at the working height", () => {
  assert.equal(at([2.05, 1.04]).snap?.id, "point.above");
  const low = at([2.05, 1.04], { depth: 1 });
  assert.equal(low.snap?.id, "point.a");
  assert.equal(low.depth, 1.2);
  close(low.at, [2, 1]);
});

test("a run is met at its own height, and says how far along", () => {
  const on = at([3.33, 2.06]);
  assert.equal(on.snap?.kind, "run");
  assert.equal(on.depth, 3);
  close(on.at, [3.33, 2]);
  assert.ok(Math.abs((on.snap?.along_m ?? 0) - 2.83) < 1e-9);
});

test("a riser is met at the working height, no higher than it goes", () => {
  const on = at([4.02, 3.03]);
  assert.equal(on.snap?.id, "line.riser");
  assert.equal(on.depth, 2.4);
  assert.ok(Math.abs((on.snap?.along_m ?? 0) - 1.9) < 1e-9);
  assert.equal(at([4, 3], { depth: 9 }).depth, 3);
});

test("on a run the place square to the last one is preferred", () => {
  close(at([3.06, 2.04], { from: [3, 0.5] }).at, [3, 2]);
});

test("lines keep their distance off a wall, on the grid counted from its start", () => {
  const on = at([3.71, 0.08]);
  assert.equal(on.snap?.kind, "wall");
  assert.equal(on.snap?.id, "wall.south");
  close(on.at, [3.7, 0.05]);
});

test("where two walls meet is the corner, off both", () => {
  const on = at([0.09, 0.02]);
  assert.equal(on.snap?.kind, "corner");
  close(on.at, [0.05, 0.05]);
  close(at([0.04, 0.06], {}, new Set<SnapKind>(["corner"]), 0).at, [0, 0]);
});

test("the middle of a wall pulls", () => {
  const on = at([3.04, 0.1]);
  assert.equal(on.snap?.kind, "middle");
  close(on.at, [3, 0.05]);
});

test("away from everything: square to the last place in one direction, the grid in the other", () => {
  const free = at([5.07, 3.21], { from: [5, 1.5] });
  assert.equal(free.snap?.kind, "square");
  close(free.at, [5, 3.2]);
  assert.deepEqual(free.snap?.guides[0]?.[0], [5, 1.5]);
});

test("level with a point that stands near", () => {
  const free = at([2.03, 3.42]);
  assert.equal(free.snap?.kind, "level");
  close(free.at, [2, 3.4]);
});

test("what is being dragged does not hold itself", () => {
  const without = new Set(["point.a", "point.above"]);
  const s = find(field, [2.05, 1.04], {
    reach: { kinds: everything, standoff: 0.05, without },
    near: 0.1,
    grid: 0.05,
    depth: 2.4,
    from: null,
    over: "",
  });
  assert.notEqual(s.snap?.kind, "point");
});

test("what the pointer lies on as drawn is meant, though it is drawn a little beside", () => {
  assert.equal(at([2.3, 1.2], { over: "point.a", depth: 1 }).snap?.id, "point.a");
  assert.equal(at([3, 2.3], { over: "line.main" }).snap?.id, "line.main");
});

test("without a grid a free place is as it is", () => {
  const kinds = new Set<SnapKind>(["point"]);
  const free = at([5.123, 3.217], {}, kinds);
  assert.equal(free.snap, null);
  close(free.at, [5.123, 3.217]);
});
