import assert from "node:assert/strict";
import { test } from "node:test";
import type { FindReading, Weak } from "../../api/types.gen.ts";
import { figuresFor, judge, keyOf, proposed } from "./draft.ts";

const at = (outlet: string): FindReading => ({ kind: "pressure", place: { at: outlet } });

test("what is typed for one proposal is not taken for the next", () => {
  const had = { of: keyOf(at("outlet.a")), figures: { gauge: "6 bar" } };
  assert.deepEqual(figuresFor(keyOf(at("outlet.a")), had), { gauge: "6 bar" });
  assert.deepEqual(figuresFor(keyOf(at("outlet.b")), had), {});
  assert.deepEqual(figuresFor(keyOf(undefined), had), {});
});

test("a draft keeps every valve that was shut, and that the compressor was stopped", () => {
  const of = { cut_in_Pa_g: 6e5, cut_out_Pa_g: 8e5 } as Weak;
  const text = (pa: number) => `${pa / 1e5} bar`;
  const fall = proposed({ kind: "fall", from_Pa_g: 7e5, to_Pa_g: 6e5, shut: ["point.a", "point.b"] }, text);
  assert.deepEqual(judge({ ...fall, time: "2:00" }, of, "metric").reading?.shut, ["point.a", "point.b"]);
  const down = proposed({ ...at("outlet.a"), stopped: true }, text);
  const read = { gauge: "3 bar", receiver: "3.4 bar" };
  assert.equal(judge({ ...down, ...read }, of, "metric").reading?.stopped, true);
  assert.equal("stopped" in (judge({ ...down, ...read, stopped: false }, of, "metric").reading ?? {}), false);
});
