import assert from "node:assert/strict";
import test from "node:test";
import { standing } from "./stuff.ts";

const room = { floor_m: 1, ceiling_m: 5 };
const nothing = { bottom: null, top: null };

test("a post goes up to the ceiling, a beam hangs under it, a bench is a bench high", () => {
  assert.deepEqual(standing("post", nothing, room), { bottom_m: 1, top_m: 5 });
  assert.deepEqual(standing("beam", nothing, room), { bottom_m: 4.7, top_m: 5 });
  assert.deepEqual(standing("bench", nothing, room), { bottom_m: 1, top_m: 1.9 });
});

test("what is typed counts from the floor of the room", () => {
  assert.deepEqual(standing("machine", { bottom: 0.5, top: 2 }, room), { bottom_m: 1.5, top_m: 3 });
  assert.deepEqual(standing("post", nothing, undefined), { bottom_m: 0, top_m: 3 });
});
