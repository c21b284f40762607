import assert from "node:assert/strict";
import { test } from "node:test";
import type { FindReading } from "../../api/types.gen.ts";
import { figuresFor, keyOf } from "./draft.ts";

const at = (outlet: string): FindReading => ({ kind: "pressure", place: { at: outlet } });

test("what is typed for one proposal is not taken for the next", () => {
  const had = { of: keyOf(at("outlet.a")), figures: { gauge: "6 bar" } };
  assert.deepEqual(figuresFor(keyOf(at("outlet.a")), had), { gauge: "6 bar" });
  assert.deepEqual(figuresFor(keyOf(at("outlet.b")), had), {});
  assert.deepEqual(figuresFor(keyOf(undefined), had), {});
});
