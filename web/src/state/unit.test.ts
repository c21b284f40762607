import assert from "node:assert/strict";
import { test } from "node:test";
import { withUnit } from "./unit.ts";

test("a number without a unit is meant as the person thinks", () => {
  assert.equal(withUnit("length", "26", "us"), "26 ft");
  assert.equal(withUnit("length", "12 ft 6", "us"), "12 ft 6");
  assert.equal(withUnit("length", "8", "metric"), "8 m");
  assert.equal(withUnit("gauge pressure", "90", "us"), "90 psi");
  assert.equal(withUnit("gauge pressure", "6,5", "mixed"), "6,5 bar");
  assert.equal(withUnit("volume", "270", "metric"), "270 L");
  assert.equal(withUnit("ratio", "0.5", "metric"), "0.5");
});

test("the figure in the field says the unit", () => {
  assert.equal(withUnit("length", "120", "metric", "100 mm"), "120 mm");
  assert.equal(withUnit("length", "0.95", "metric", "900 mm"), "0.95 m");
  assert.equal(withUnit("volume", "80", "us", "60 gal"), "80 gal");
  assert.equal(withUnit("length", "3", "us", "12 ft 6 in"), "3 ft");
  assert.equal(withUnit("gauge pressure", "7", "mixed", "6.3 bar (91 psi)"), "7 bar");
});
