import assert from "node:assert/strict";
import test from "node:test";
import type { Catalogue, CatalogueKind } from "../../api/types.gen.ts";
import { squareWay } from "../connect/square.ts";
import { lacking, passes, plantGesture, search, shelf } from "./shelf.ts";

const kind = (
  id: string,
  group: string,
  roles: string[],
  ports: string[],
  needs: string[] = [],
): CatalogueKind => ({
  id,
  words: id,
  group: group as CatalogueKind["group"],
  roles,
  symbol: "",
  ports: ports.map((p) => ({ id: p, toward: [1, 0, 0], joint: "thread-female" })),
  needs,
});
const compressor = kind("compressor", "plant", ["supplies"], ["out"], ["compressor"]);
const receiver = kind("receiver", "plant", ["stores"], ["in", "out", "drain"], ["volume_L"]);
const regulator = kind("regulator", "treatment", ["regulates"], ["in", "out"], ["set_kPa_g"]);
const all = {
  kinds: [regulator, receiver, compressor, kind("tee", "fitting", ["branches"], ["run-1"])],
  machines: [{ id: "piston-3", words: "piston 3 kW", facts: "receiver 200 L" }],
  treatment: [{ id: "regulator-1/2", kind: "regulator", words: "regulator 1/2 in" }],
} as unknown as Catalogue;
const nothing = { name: "", volume_L: 0, set_kPa_g: 0 };

test("wares stand in the order of the air; fittings come with lines", () => {
  assert.deepEqual(
    shelf(all).map((g) => [g.id, g.wares.map((w) => w.id)]),
    [
      ["machines", ["compressor piston-3"]],
      ["stores", ["receiver "]],
      ["treatment", ["regulator regulator-1/2"]],
    ],
  );
});

test("what is called so comes before what says so in its figures", () => {
  const ids = (text: string) => search(shelf(all), text).flatMap((g) => g.wares.map((w) => w.kind));
  assert.deepEqual(ids("receiver"), ["receiver"]);
  assert.deepEqual(ids("200"), ["compressor"]);
  assert.deepEqual(ids("piston 3"), ["compressor"]);
  assert.deepEqual(ids("boiler"), []);
  assert.equal(ids("").length, 3);
});

test("a figure that must be stated is asked for and goes along", () => {
  assert.deepEqual(lacking(receiver, nothing), ["volume_L"]);
  assert.deepEqual(lacking(compressor, nothing), []);
  const at = { at: { at_m: [1, 2, 0.9] } };
  assert.deepEqual(plantGesture(receiver, "", { ...nothing, name: "Tank", volume_L: 270 }, "existing", at), {
    do: "plant",
    kind: "receiver",
    name: "Tank",
    at: { at_m: [1, 2, 0.9] },
    state: "existing",
    figures: { kind: "receiver", volume_L: 270 },
  });
});

test("what air passes through can be set into a line", () => {
  assert.deepEqual([compressor, receiver, regulator].map(passes), [false, true, true]);
});

test("plant is connected squarely, over first and then up or down", () => {
  assert.deepEqual(squareWay([0, 0, 1], [3, 1, 2]), [
    [3, 0, 1],
    [3, 1, 1],
  ]);
  assert.deepEqual(squareWay([0, 0, 1], [0, 0, 2]), []);
  assert.deepEqual(squareWay([0, 0, 1], [2, 0, 1]), []);
});
