import assert from "node:assert/strict";
import test from "node:test";
import type { WallFrame } from "../space.ts";
import { cornerBy } from "./below.ts";

const north: WallFrame = { from: [0, 6], to: [9, 6], floor: 0 };

test("a place along a wall is counted from the nearer of its ends, level with the place", () => {
  assert.deepEqual(cornerBy(north, [2, 5.95, 2.6]), { at: [0, 5.95, 2.6], toward: "west" });
  assert.deepEqual(cornerBy(north, [7, 5.95, 2.6]), { at: [9, 5.95, 2.6], toward: "east" });
  assert.equal(cornerBy(undefined, [2, 3, 2.6]), null);
});

test("it is counted from the other end where that is wanted, and the end has a name", () => {
  assert.deepEqual(cornerBy(north, [7, 5.95, 2.6], true), { at: [0, 5.95, 2.6], toward: "west" });
  const slanting: WallFrame = { from: [0, 0], to: [5, 5], floor: 0 };
  assert.equal(cornerBy(slanting, [1, 1, 2.6])?.toward, "south-west");
  assert.equal(cornerBy(slanting, [4, 4, 2.6])?.toward, "north-east");
});
