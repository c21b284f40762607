import assert from "node:assert/strict";
import test from "node:test";
import { lengthIn } from "./length.ts";

// Expected: what package unit writes for the same lengths (System.Text of KindLength).
const rows: [string, number, string][] = [
  ["us", 0, "0 in"],
  ["us", 0.0123, "0.484 in"],
  ["us", 0.3, "11.8 in"],
  ["us", 0.9999, "3 ft 3-3/8 in"],
  ["us", 1.234, "4 ft 5/8 in"],
  ["us", 3.2, "10 ft 6 in"],
  ["us", 123.4, "404 ft 10-1/4 in"],
  ["us", -0.5, "-1 ft 7-5/8 in"],
  ["metric", 0, "0 mm"],
  ["metric", 0.0123, "12.3 mm"],
  ["metric", 0.1254, "125 mm"],
  ["metric", 0.9999, "1000 mm"],
  ["metric", 3.2, "3.20 m"],
  ["mixed", 12.345, "12.35 m"],
  ["metric", -0.5, "-500 mm"],
];

test("lengths read as the program writes them", () => {
  for (const [system, m, want] of rows) assert.equal(lengthIn(system, m), want, `${m} m, ${system}`);
});
