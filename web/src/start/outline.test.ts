import assert from "node:assert/strict";
import { test } from "node:test";
import { type Corner, ell, evenly, nearest, oblong, placeOn, type Side, sides } from "./outline.ts";

const area = (o: readonly (readonly [number, number])[]) =>
  o.reduce((sum, [x, y], i) => {
    const [x2, y2] = o[(i + 1) % o.length] as [number, number];
    return sum + (x * y2 - x2 * y) / 2;
  }, 0);

test("a room without a corner is counterclockwise, of six sides, and lacks just that corner", () => {
  for (const corner of ["ne", "nw", "sw", "se"] as Corner[]) {
    const o = ell(8, 6, corner, 3, 2);
    assert.ok(o);
    assert.equal(o.length, 6);
    assert.ok(Math.abs(area(o) - (48 - 6)) < 1e-9, corner);
    const far: Record<Corner, [number, number]> = { ne: [8, 6], nw: [0, 6], sw: [0, 0], se: [8, 0] };
    assert.ok(!o.some(([x, y]) => x === far[corner][0] && y === far[corner][1]), corner);
  }
  assert.equal(ell(8, 6, "ne", 8, 2), null);
  assert.equal(ell(8, 6, "ne", 0, 2), null);
});

test("walls are called by the way they look, the second of one way by a number", () => {
  assert.deepEqual(
    sides(oblong(8, 6)).map((s) => s.wall),
    ["south", "east", "north", "west"],
  );
  const cut = sides(ell(8, 6, "ne", 3, 2) ?? []).map((s) => s.wall);
  assert.deepEqual(cut, ["south", "east", "north", "east-2", "north-2", "west"]);
});

test("along a wall is counted from its left end as seen from inside", () => {
  const all = sides(oblong(8, 6));
  const south = all[0] as Side;
  // Who looks south has east on the left.
  assert.deepEqual(placeOn(south, 1), [7, 0]);
  assert.deepEqual(placeOn(south, 1, 0.5), [7, 0.5]);
  const north = all[2] as Side;
  assert.deepEqual(placeOn(north, 1), [1, 6]);
});

test("a click finds the nearest wall and the place on it", () => {
  const all = sides(oblong(8, 6));
  const hit = nearest(all, [7.02, 0.4]);
  assert.equal(hit?.wall, "south");
  assert.ok(Math.abs((hit?.along ?? 0) - 1) < 1e-9);
  assert.equal(nearest(all, [9, 3])?.wall, "east");
  assert.equal(nearest([], [0, 0]), null);
});

test("places evenly round the walls are as many as asked for, all on the walls", () => {
  const all = sides(ell(8, 6, "sw", 3, 2) ?? []);
  const at = evenly(all, 7);
  assert.equal(at.length, 7);
  for (const p of at) assert.ok((nearest(all, p)?.off ?? 1) < 1e-9);
});
