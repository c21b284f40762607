import assert from "node:assert/strict";
import test from "node:test";
import { next, type Stop } from "./walk.ts";

const stops: Stop[] = [
  { id: "a", x: 0, y: 0 },
  { id: "b", x: 100, y: 5 },
  { id: "c", x: 60, y: 90 },
  { id: "d", x: 0, y: 120 },
];

test("a step goes to what lies straight ahead", () => {
  assert.equal(next(stops, "a", "right"), "b");
  assert.equal(next(stops, "a", "down"), "d");
  assert.equal(next(stops, "c", "left"), "d");
});

test("at the edge one stays", () => {
  assert.equal(next(stops, "a", "left"), "a");
  assert.equal(next(stops, "b", "up"), "a");
});

test("without a place one begins at the first", () => {
  assert.equal(next(stops, "", "right"), "a");
  assert.equal(next([], "", "right"), "");
});
