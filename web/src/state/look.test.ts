import assert from "node:assert/strict";
import test from "node:test";
import { bounds, fitted, type Look, measure, moved, pane, rest, transformOf, whole, zoomed } from "./look.ts";

const size = { width: 800, height: 600 };
const shop = { min: [0, 0], max: [12, 9] } as const;

function open(): Look {
  measure(shop, size, 20, true);
  return whole.value;
}

/** Where a place of the scene stands in the window. */
const inWindow = (l: Look, x: number, y: number) => [(x - l.left) * l.perMetre, (l.top - y) * l.perMetre];

test("everything in sight stands in the middle, with the margin", () => {
  const l = fitted(shop, size, 20);
  assert.deepEqual(inWindow(l, 6, 4.5).map(Math.round), [400, 300]);
  assert.ok(Math.abs((inWindow(l, 0, 0)[1] ?? 0) - 580) < 1e-9);
});

test("the place under the pointer stays where it is", () => {
  const before = open();
  const after = zoomed(before, 2.5, 300, 200);
  const place = [before.left + 300 / before.perMetre, before.top - 200 / before.perMetre] as const;
  const now = inWindow(after, ...place);
  assert.ok(Math.abs((now[0] ?? 0) - 300) < 1e-9 && Math.abs((now[1] ?? 0) - 200) < 1e-9);
});

test("one comes so close that a millimetre of the shop is more than a pixel", () => {
  let l = open();
  for (let i = 0; i < 40; i++) l = zoomed(l, 1.5, 400, 300);
  assert.ok(l.perMetre / 1000 >= 1);
});

test("the drawing cannot be pushed out of the window", () => {
  const l = open();
  for (const [dx, dy] of [
    [5000, 5000],
    [-5000, -5000],
  ] as const) {
    const far = moved(l, dx, dy);
    const [x0 = 0, y1 = 0] = inWindow(far, 0, 0);
    const [x1 = 0, y0 = 0] = inWindow(far, 12, 9);
    assert.ok(x1 > 0 && x0 < size.width && y1 > 0 && y0 < size.height);
  }
});

test("the transform carries shapes laid out at rest to where they are looked at", () => {
  const before = open();
  const after = zoomed(before, 3, 100, 500);
  const m = /translate\((\S+) (\S+)\) scale\((\S+)\)/.exec(transformOf(before, after));
  const [x = 0, y = 0, k = 0] = m?.slice(1).map(Number) ?? [];
  const [px = 0, py = 0] = inWindow(before, 7, 3);
  const want = inWindow(after, 7, 3);
  assert.ok(Math.abs(px * k + x - (want[0] ?? 0)) < 1e-6);
  assert.ok(Math.abs(py * k + y - (want[1] ?? 0)) < 1e-6);
});

test("a drawing that grows within the window stays where it is, one that leaves it is fitted", () => {
  const before = open();
  measure({ min: [0, 0], max: [12.1, 9] }, size, 20, false);
  assert.equal(rest.value, before);
  measure({ min: [0, 0], max: [30, 9] }, size, 20, false);
  assert.ok(rest.value.perMetre < before.perMetre);
  assert.deepEqual(bounds.value.max, [30, 9]);
  assert.equal(pane.value.width, 800);
});
