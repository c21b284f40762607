import assert from "node:assert/strict";
import { test } from "node:test";
import { placed } from "./labels.ts";

const box = (x: number, y: number) => ({ x, y, w: 50, h: 12 });

test("words that would lie on each other take the next place that is free, or none", () => {
  const [first, second, third, far] = placed([
    [box(0, 0)],
    [box(20, 0), box(20, 14)],
    [box(40, 8)],
    [box(200, 0)],
  ]);
  assert.deepEqual(first, box(0, 0));
  assert.deepEqual(second, box(20, 14));
  assert.equal(third, null);
  assert.deepEqual(far, box(200, 0));
  assert.deepEqual(placed([[box(0, 0)]], [box(10, 10)]), [null]);
});
