import assert from "node:assert/strict";
import { test } from "node:test";
import { branch, enough, firstChain, tableOf } from "./chain.ts";

const whole = () => ({
  ...firstChain("us"),
  flow: "22",
  cutIn: "90",
  cutOut: "120 psi",
  volume: "80",
  treated: ["filter", "regulator"],
  set: "100",
  branches: [
    { ...branch("us"), main: "40", drop: "10", name: 'the "far" bench', hose: "25", item: "da-sander-6" },
    { ...branch("us"), main: "3 m", drop: "10", coupler: false, takes: "12", at: "40" },
  ],
});

test("a chain says what it lacks", () => {
  assert.equal(enough(firstChain("us")), false);
  assert.equal(enough(whole()), true);
  assert.equal(enough({ ...whole(), volume: " " }), false);
});

test("the table has a row for each part, bare figures in the person's units", () => {
  const rows = tableOf(whole(), "us").split("\n");
  assert.equal(rows[1], '"compressor","","","3/4","","22 cfm","","90 psi","120 psi",""');
  assert.equal(rows[2], '"receiver","","","","","","","","","80 gal"');
  assert.equal(rows[4], '"regulator","","","","","","100 psi","","",""');
  assert.equal(rows[6], '"drop","the ""far"" bench","","1/2","10 ft","","","","",""');
  assert.deepEqual(
    rows.map((r) => r.split(",")[0]?.replaceAll('"', "")),
    [
      "part",
      "compressor",
      "receiver",
      "filter",
      "regulator",
      "main",
      "drop",
      "coupler",
      "hose",
      "coupler",
      "tool",
      "main",
      "drop",
      "tool",
    ],
  );
});
