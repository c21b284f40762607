import assert from "node:assert/strict";
import { test } from "node:test";
import type { HistoryStep } from "../../api/types.gen.ts";
import { going, standing } from "./standing.ts";

const step = (
  revision: number,
  kind: HistoryStep["kind"] = "edit",
  of = 0,
  words = `step ${revision}`,
): HistoryStep => ({
  revision,
  kind,
  of,
  words,
  when: "2026-11-25T14:20:00Z",
  by: "Ada",
  plan: "",
});

const at = (steps: HistoryStep[], revision: number) =>
  [...(standing(steps).get(revision) ?? [])].sort((a, b) => a - b);

test("an edit stands until it is undone, and again when it is done again", () => {
  const rows = [step(1), step(2), step(3, "undo", 2), step(4, "redo", 2)];
  assert.deepEqual(at(rows, 2), [1, 2]);
  assert.deepEqual(at(rows, 3), [1]);
  assert.deepEqual(at(rows, 4), [1, 2]);
});

test("going back leaves what stood then, and undoing that brings the rest back", () => {
  const rows = [step(1), step(2), step(3), step(4, "replace", 1, "went back to: step 1"), step(5, "undo", 4)];
  assert.deepEqual(at(rows, 4), [1]);
  assert.deepEqual(at(rows, 5), [1, 2, 3]);
  assert.deepEqual(at([...rows, step(6, "redo", 4)], 6), [1]);
});

test("going back to the beginning leaves nothing", () => {
  assert.deepEqual(at([step(1), step(2, "replace", 0, "went back to the beginning")], 2), []);
});

test("a new document stands as an edit does", () => {
  assert.deepEqual(at([step(1), step(2, "replace", 0, "the file was saved")], 2), [1, 2]);
});

test("what going back would do is told in both directions, newest first", () => {
  const rows = [step(1), step(2), step(3, "undo", 2), step(4), step(5)];
  const to2 = going(rows, 2);
  assert.deepEqual(
    to2.taken.map((s) => s.revision),
    [5, 4],
  );
  assert.deepEqual(
    to2.brought.map((s) => s.revision),
    [2],
  );
  assert.deepEqual(going(rows, 5), { taken: [], brought: [] });
  assert.deepEqual(
    going(rows, 0).taken.map((s) => s.revision),
    [5, 4, 1],
  );
});
