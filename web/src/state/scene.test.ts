import assert from "node:assert/strict";
import test from "node:test";
import type { SceneItem, ScenePatch } from "../api/types.gen.ts";
import { emptySheet, patchSheet, type Sheet } from "./scene.ts";

const item = (id: string, x: number): SceneItem => ({ id, mark: { at_m: [x, 0], parts: [] } });

const patch = (...layers: ScenePatch["layers"]): ScenePatch => ({
  title: "Plan",
  min_m: [0, 0],
  max_m: [4, 3],
  layers,
});

function opened(): Sheet {
  const sheet = emptySheet();
  const groups = { "point.a": [item("point.a", 1)], "point.a#2": [item("point.a", 2)], "#1": [item("", 3)] };
  patchSheet(
    sheet,
    patch(
      { id: "parts", title: "parts", order: ["point.a", "#1", "point.a#2"], groups },
      { id: "lines", title: "lines" },
    ),
    true,
  );
  return sheet;
}

const keys = (s: Sheet, i: number) => s.layers.value[i]?.groups.value.map((g) => g.key);

test("a whole patch is the drawing, in its order, each group with its thing", () => {
  const s = opened();
  assert.deepEqual(keys(s, 0), ["point.a", "#1", "point.a#2"]);
  assert.deepEqual(
    s.layers.value[0]?.groups.value.map((g) => g.id),
    ["point.a", "", "point.a"],
  );
  assert.deepEqual(s.extent.value, { min: [0, 0], max: [4, 3] });
});

test("a change touches its group alone", () => {
  const s = opened();
  const [before] = s.layers.value;
  const list = before?.groups.value;
  const others = list?.slice(1).map((g) => g.items.value);
  patchSheet(s, patch({ id: "parts", title: "parts", groups: { "point.a": [item("point.a", 9)] } }), false);
  assert.equal(s.layers.value[0], before, "the layer is the same");
  assert.equal(before?.groups.value, list, "and so is its list");
  assert.deepEqual(list?.[0]?.items.value, [item("point.a", 9)]);
  assert.deepEqual(
    list?.slice(1).map((g) => g.items.value),
    others,
  );
});

test("groups come and go in the order that is said", () => {
  const s = opened();
  const groups = { "point.b": [item("point.b", 5)] };
  const order = ["point.b", "point.a", "point.a#2"];
  patchSheet(s, patch({ id: "parts", title: "parts", groups, gone: ["#1"], order }), false);
  assert.deepEqual(keys(s, 0), order);
  assert.equal(s.layers.value.length, 2, "a layer without change stays");
});

test("a whole patch on an old drawing leaves nothing of it", () => {
  const s = opened();
  const groups = { "wall.n": [item("wall.n", 0)] };
  patchSheet(s, patch({ id: "parts", title: "parts", order: ["wall.n"], groups }), true);
  assert.deepEqual(keys(s, 0), ["wall.n"]);
  assert.equal(s.layers.value.length, 1);
});
