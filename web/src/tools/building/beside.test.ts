import assert from "node:assert/strict";
import test from "node:test";
import type { Vec2 } from "../space.ts";
import { besideCorner, type Way } from "./beside.ts";

const hall: Vec2[] = [
  [1, 2],
  [9, 2],
  [9, 8],
  [1, 8],
];

test("a room stands beside another, flush at one end", () => {
  const rows: [Way, Vec2][] = [
    ["right", [9, 2]],
    ["left", [-3, 2]],
    ["above", [1, 8]],
    ["below", [1, -1]],
  ];
  for (const [way, want] of rows) assert.deepEqual(besideCorner(hall, way, [4, 3]), want, way);
});
