import assert from "node:assert/strict";
import { test } from "node:test";
import type { ScreenFinding } from "../../api/types.gen.ts";
import { leftOf } from "./left.ts";

const finding = (code: string, at: string, title: string): ScreenFinding => ({
  key: title,
  code,
  severity: "fault",
  severity_words: "Falls short",
  title,
  why: "",
  where: [{ id: at, words: at }],
  origin: { inputs: [], sources: [], range: "" },
  shares: [],
  cures: [],
});
const tried = { words: "a wider hose", why: "", code: "short", where: ["tool.a", "outlet.b"], revision: 4 };

test("a cure that is enough leaves nothing", () => {
  assert.equal(
    leftOf(tried, [finding("short", "tool.z", "another tool"), finding("wet", "tool.a", "wet")]),
    "",
  );
});

test("one that is not says what is left", () => {
  assert.equal(leftOf(tried, [finding("short", "tool.a", "0.2 bar short")]), "0.2 bar short");
});
