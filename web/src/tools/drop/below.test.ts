import assert from "node:assert/strict";
import test from "node:test";
import type { WallFrame } from "../space.ts";
import { cornerBy } from "./below.ts";

const north: WallFrame = { from: [0, 6], to: [9, 6], floor: 0 };

test("a place along a wall is counted from the nearer of its ends, level with the place", () => {
  assert.deepEqual(cornerBy(north, [2, 5.95, 2.6]), [0, 5.95, 2.6]);
  assert.deepEqual(cornerBy(north, [7, 5.95, 2.6]), [9, 5.95, 2.6]);
  assert.equal(cornerBy(undefined, [2, 3, 2.6]), null);
});
