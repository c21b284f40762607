import assert from "node:assert/strict";
import test from "node:test";
import type { Vec2 } from "../space.ts";
import { aligned, areaOf, closes, simplified, withCorner } from "./outline.ts";

const three: Vec2[] = [
  [0, 0],
  [6, 0],
  [6, 4],
];

test("corners come one after the other; on the first the outline closes", () => {
  let drawn: { corners: readonly Vec2[]; closed: boolean } = { corners: [], closed: false };
  for (const p of [...three, [0, 4] as Vec2]) drawn = withCorner(drawn.corners, p);
  assert.equal(drawn.closed, false);
  drawn = withCorner(drawn.corners, [0, 0]);
  assert.equal(drawn.closed, true);
  assert.equal(drawn.corners.length, 4);
});

test("two corners do not close, and one corner twice is one", () => {
  assert.equal(withCorner(three.slice(0, 2), [0, 0]).closed, false);
  assert.equal(withCorner(three, [6, 4]).corners.length, 3);
  assert.equal(closes(three.slice(0, 2)), false);
  assert.equal(
    closes([
      [0, 0],
      [1, 0],
      [2, 0],
    ]),
    false,
  );
});

test("the first corner pulls: level, above, and onto itself", () => {
  assert.deepEqual(aligned(three, [0.08, 4], 0.1), [0, 4]);
  assert.deepEqual(aligned(three, [3, 0.05], 0.1), [3, 0]);
  assert.deepEqual(aligned(three, [0.05, 0.06], 0.1), [0, 0]);
  assert.deepEqual(aligned(three, [3, 3], 0.1), [3, 3]);
  // The second corner is not pulled back to the first.
  assert.deepEqual(aligned([[0, 0]], [0.05, 3], 0.1), [0.05, 3]);
});

test("area is signed; corners on a straight side go", () => {
  assert.equal(areaOf([...three, [0, 4]]), 24);
  assert.equal(areaOf([[0, 4], ...three.toReversed()] as Vec2[]), -24);
  assert.deepEqual(simplified([[0, 0], [3, 0], ...three.slice(1), [0, 4]]), [...three, [0, 4]]);
});
