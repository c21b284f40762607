import assert from "node:assert/strict";
import { test } from "node:test";
import type { ScreenField } from "../../api/types.gen.ts";
import { asOne, parted, toggled, wrongOf } from "./stating.ts";

test("a refusal is told at its field with the nearest form", () => {
  const problem = {
    path: "set_kPa_g",
    read: '"90 pis"',
    want: "gauge pressure",
    nearest: "90 psi",
    where: [],
  };
  assert.deepEqual(wrongOf("no", [problem]), { words: '"90 pis": wanted gauge pressure', nearest: "90 psi" });
  assert.deepEqual(wrongOf("the line is down", []), { words: "the line is down", nearest: "" });
});

test("steps of one figure are one step", () => {
  const step = asOne("stated the pump-up", [{ edit: "set" }, { edit: "set" }]);
  assert.equal(step.edit, "all");
  assert.deepEqual(step.edits, [{ edit: "set" }, { edit: "set" }]);
});

test("several are taken in and out", () => {
  assert.equal(toggled(["a", "b"], "c", true), "a,b,c");
  assert.equal(toggled(["a", "b"], "a", false), "b");
  assert.equal(toggled(["a"], "a", false), "");
  assert.equal(toggled(["a"], "a", true), "a");
});

test("what a kind seldom wants stands apart, unless it is stated", () => {
  const field = (key: string, more: boolean, value: string): ScreenField => ({
    id: "point.x",
    key,
    words: key,
    kind: "quantity",
    value,
    chosen: [],
    unit: "",
    hint: "",
    choices: [],
    doc: "",
    range: "",
    default: "",
    needed: false,
    fixed: false,
    more,
  });
  const { wanted, seldom } = parted([field("a", false, ""), field("b", true, ""), field("c", true, "3 bar")]);
  assert.deepEqual(
    wanted.map((f) => f.key),
    ["a", "c"],
  );
  assert.deepEqual(
    seldom.map((f) => f.key),
    ["b"],
  );
});
