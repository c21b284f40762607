import assert from "node:assert/strict";
import { test } from "node:test";
import { ago, clock, dayWords, midnights } from "./when.ts";

const now = new Date(2026, 10, 25, 14, 20, 30); // a Wednesday

test("how long ago is said as people say it", () => {
  const rows: [Date, string][] = [
    [new Date(2026, 10, 25, 14, 20, 10), "just now"],
    [new Date(2026, 10, 25, 14, 21, 30), "just now"],
    [new Date(2026, 10, 25, 14, 19, 0), "one minute ago"],
    [new Date(2026, 10, 25, 13, 40, 0), "40 minutes ago"],
    [new Date(2026, 10, 25, 13, 0, 0), "one hour ago"],
    [new Date(2026, 10, 25, 0, 10, 0), "14 hours ago"],
    [new Date(2026, 10, 24, 23, 59, 0), "yesterday at 23:59"],
    [new Date(2026, 10, 23, 9, 5, 0), "on Monday at 09:05"],
    [new Date(2026, 10, 19, 8, 0, 0), "on Thursday at 08:00"],
    [new Date(2026, 10, 18, 8, 0, 0), "on 18 November"],
    [new Date(2025, 4, 3, 8, 0, 0), "on 3 May 2025"],
    [new Date(2026, 11, 1, 8, 0, 0), "on 1 December at 08:00"],
  ];
  for (const [at, want] of rows) assert.equal(ago(now, at), want);
});

test("minutes just before midnight belong to the day before only in words of days", () => {
  assert.equal(ago(new Date(2026, 10, 25, 0, 5), new Date(2026, 10, 24, 23, 50)), "15 minutes ago");
});

test("days have headings", () => {
  assert.equal(dayWords(now, new Date(2026, 10, 25, 0, 0)), "Today");
  assert.equal(dayWords(now, new Date(2026, 10, 24, 23, 59)), "Yesterday");
  assert.equal(dayWords(now, new Date(2026, 10, 20, 12, 0)), "Friday, 20 November");
  assert.equal(dayWords(now, new Date(2024, 1, 29, 12, 0)), "Thursday, 29 February 2024");
});

test("a month ends, a year ends, and summer time is one day like any other", () => {
  assert.equal(midnights(new Date(2027, 0, 1, 0, 1), new Date(2026, 11, 31, 23, 59)), 1);
  assert.equal(midnights(new Date(2026, 2, 30, 12), new Date(2026, 2, 28, 12)), 2);
  assert.equal(clock(new Date(2026, 0, 1, 7, 4)), "07:04");
});
