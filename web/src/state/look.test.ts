import assert from "node:assert/strict";
import test from "node:test";
import { fitted, moved, pane, zoomed } from "./look.ts";

test("the place under the pointer stays where it is", () => {
  const once = zoomed(fitted, 2, 300, 200);
  const twice = zoomed(once, 1.5, 120, 80);
  // A place of the drawing stands at zoom·place + shift.
  const placeAt = (at: number, shift: number, zoom: number) => (at - shift) / zoom;
  assert.equal(placeAt(120, once.x, once.zoom), placeAt(120, twice.x, twice.zoom));
  assert.equal(placeAt(80, once.y, once.zoom), placeAt(80, twice.y, twice.zoom));
});

test("out again is fitted again, and a fitted drawing does not move", () => {
  assert.deepEqual(zoomed(zoomed(fitted, 3, 10, 10), 1 / 9, 50, 50), fitted);
  assert.deepEqual(moved(fitted, 30, 30), fitted);
});

test("there is an end to coming closer", () => {
  assert.equal(zoomed(zoomed(fitted, 10, 0, 0), 10, 0, 0).zoom, 16);
});

test("the drawing cannot be pushed out of the window", () => {
  pane.value = { width: 400, height: 300 };
  const near = zoomed(fitted, 2, 200, 150);
  assert.deepEqual(moved(near, 5000, 5000), { zoom: 2, x: 0, y: 0 });
  assert.deepEqual(moved(near, -5000, -5000), { zoom: 2, x: -400, y: -300 });
  pane.value = { width: 0, height: 0 };
});
