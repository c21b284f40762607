import assert from "node:assert/strict";
import { test } from "node:test";
import { asked, left, onlyOf, paper, stamp, toggle } from "./choice.ts";

test("all sheets are asked for by none", () => {
  assert.equal(onlyOf(["plan", "walls"], new Set()), "");
  assert.equal(onlyOf(["plan", "walls", "cuts"], new Set(["walls"])), "plan,cuts");
});

test("the last sheet stays", () => {
  left.value = new Set();
  toggle("plan", ["plan", "walls"]);
  toggle("walls", ["plan", "walls"]);
  assert.deepEqual([...left.value], ["plan"]);
  toggle("plan", ["plan", "walls"]);
  assert.equal(left.value.size, 0);
});

test("what is empty is not asked", () => {
  paper.value = "a3";
  stamp.value = { by: "Quay & Sons", mark: "", revision: "B" };
  assert.equal(asked(["leaf", "2"]), "?paper=a3&by=Quay+%26+Sons&revision=B&leaf=2");
});
