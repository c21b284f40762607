import assert from "node:assert/strict";
import test from "node:test";
import type { Vec2 } from "../space.ts";
import { backCorner, cornerAndSize, cornersOf, roundOf, setCorner } from "./rect.ts";

test("two corners across make a rectangle, whichever way they were drawn", () => {
  const first = setCorner(null, [3, 4]);
  const second = setCorner(first.rect, [1, 1]);
  assert.deepEqual(second.whole, [
    [3, 4],
    [1, 1],
  ]);
  assert.deepEqual(cornerAndSize([3, 4], [1, 1]), { corner: [1, 1], size: [2, 3] });
});

test("a side typed by itself waits for the depth", () => {
  const side = setCorner({ a: [1, 1], b: null }, [7, 1]);
  assert.deepEqual(side.rect, { a: [1, 1], b: [7, 1] });
  assert.deepEqual(setCorner(side.rect, [7, -3]).whole, [
    [1, 1],
    [7, -3],
  ]);
  // Without pointing anywhere the typed depth leads on along the side: it counts upwards.
  assert.deepEqual(setCorner(side.rect, [11, 1]).whole, [
    [1, 1],
    [7, 5],
  ]);
});

test("an upright side waits for the width; sideways is kept out of it", () => {
  const side = setCorner({ a: [0, 0], b: null }, [0, 4]);
  assert.deepEqual(setCorner(side.rect, [-6, 4.3]).whole, [
    [0, 0],
    [-6, 4],
  ]);
});

test("a place set twice adds nothing, and what was set is taken back place by place", () => {
  const begun = { a: [2, 2] as Vec2, b: null };
  assert.equal(setCorner(begun, [2, 2]).rect, begun);
  const side = { a: [2, 2] as Vec2, b: [5, 2] as Vec2 };
  assert.equal(setCorner(side, [5, 2]).rect, side);
  assert.deepEqual(backCorner(side), begun);
  assert.equal(backCorner(begun), null);
});

test("the rectangle to come follows the pointer", () => {
  assert.deepEqual(cornersOf({ a: [0, 0], b: [4, 0] }, [9, 3]), [
    [0, 0],
    [4, 0],
    [4, 3],
    [0, 3],
  ]);
});

test("a round post covers the floor that its circle does", () => {
  const ring = roundOf([5, 5], 2);
  let twice = 0;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length] as Vec2;
    twice += p[0] * q[1] - q[0] * p[1];
  });
  assert.ok(Math.abs(twice / 2 - Math.PI) < 1e-9);
});
