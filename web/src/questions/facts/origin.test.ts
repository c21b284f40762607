import assert from "node:assert/strict";
import { test } from "node:test";
import { rowsOf } from "./origin.ts";

test("an origin tells its law, inputs and sources, and always its range", () => {
  const rows = rowsOf({
    name: "Friction",
    law: "p1^2 - p2^2 = …",
    holds: "round bores",
    inputs: ["bore D 6 mm"],
    sources: ["A book, 1939 (read)"],
    range: "0.1 bar to 0.2 bar",
  });
  assert.deepEqual(
    rows.map((r) => r.words),
    ["Law", "Inputs", "Range", "Holds", "Source"],
  );
  assert.deepEqual(rows[0]?.lines, ["Friction", "p1^2 - p2^2 = …"]);
});

test("what is not known is said", () => {
  assert.deepEqual(rowsOf({ inputs: [], sources: [], range: "" }), [
    { words: "Range", lines: ["not known"] },
  ]);
});
