import assert from "node:assert/strict";
import { test } from "node:test";
import { far, gaugeOf, kelvinOf, meant, secondsOf, strange } from "./gauge.ts";

const band = { cutIn: 620, cutOut: 830 };

test("a bare figure is in the gauge's usual unit", () => {
  assert.equal(Math.round(gaugeOf("85", "us") ?? 0), 586);
  assert.equal(gaugeOf("5,9", "metric"), 590);
  assert.equal(gaugeOf("85 furlongs", "us"), null);
});

test("what a thermometer is good to is a difference: no zero of a scale comes into it", () => {
  assert.equal(kelvinOf("1", "metric"), 1);
  assert.equal(kelvinOf("0,5 °C", "us"), 0.5);
  assert.equal(kelvinOf("1.8", "us"), 1);
  assert.equal(kelvinOf("-1 K", "metric"), null);
  assert.equal(kelvinOf("warm", "metric"), null);
});

test("times as a watch and as people say them", () => {
  assert.equal(secondsOf("1:12"), 72);
  assert.equal(secondsOf("48"), 48);
  assert.equal(secondsOf("2 min"), 120);
  assert.equal(secondsOf("0"), null);
  assert.equal(secondsOf("soon"), null);
});

test("a figure far from what gauges of workshops show is another unit", () => {
  assert.equal(far(gaugeOf("5.9", "metric") ?? 0), false);
  assert.equal(far(gaugeOf("85", "metric") ?? 0), true);
  assert.equal(far(gaugeOf("5.9", "us") ?? 0), true);
});

test("a reading in another unit is asked about, and what may have been meant is offered", () => {
  assert.equal(strange(gaugeOf("5.9", "metric"), gaugeOf("7.1", "metric"), band), "");
  assert.equal(strange(gaugeOf("85", "metric"), gaugeOf("7.1", "metric"), band), "above");
  assert.equal(strange(500, gaugeOf("110", "metric"), band), "receiver");
  assert.equal(strange(500, gaugeOf("7.1", "us"), band), "receiver");
  assert.deepEqual(meant("110", 155, 1162), ["110 psi"]);
  assert.deepEqual(meant("85", 0, 750), ["85 psi", "85 kPa"]);
});
