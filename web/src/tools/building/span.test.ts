import assert from "node:assert/strict";
import test from "node:test";
import { beside, spanAbout, spanBetween } from "./span.ts";

const door = { width: 0.9, sill: 0, height: 2.1 };
const window = { width: 1.2, sill: 1, height: 1 };

test("an opening stands about the middle pointed at, and within its wall", () => {
  assert.equal(spanAbout(6, 3, door).along, 2.55);
  assert.equal(spanAbout(6, 0.1, door).along, 0);
  assert.equal(spanAbout(6, 5.9, door).along, 5.1);
  assert.equal(spanAbout(0.6, 0.3, door).along, 0, "too wide for the wall: the program says so");
});

test("drawn along a wall it has the width drawn, whichever way", () => {
  const s = spanBetween(6, [4, 0], [1, 0], door, false, true);
  assert.deepEqual(s, { along: 1, width: 3, sill: 0, height: 2.1 });
  assert.deepEqual(beside(6, s), [1, 2]);
  assert.equal(spanBetween(6, [5, 0], [9, 0], door, false, true).width, 1);
});

test("drawn on the wall itself it has sill and height too; a door goes down to the floor", () => {
  assert.deepEqual(spanBetween(6, [1, 1.1], [2.5, 2.2], window, true, false), {
    along: 1,
    width: 1.5,
    sill: 1.1,
    height: 1.1,
  });
  assert.deepEqual(spanBetween(6, [1, 0.3], [2, 2], door, true, true), {
    along: 1,
    width: 1,
    sill: 0,
    height: 2,
  });
});
