import assert from "node:assert/strict";
import test from "node:test";
import type { ScreenPiece } from "../../api/types.gen.ts";
import { compass, sizesOf, wallUnder } from "./size.ts";

const piece = (id: string, thing: object): [string, ScreenPiece] => [id, { id, what: "", words: id, thing }];

const outline = [
  [0, 0],
  [8, 0],
  [8, 5],
  [0, 5],
];
const pieces = new Map([
  piece("room.hall", { outline_m: outline, floor_m: 0, ceiling_m: 3 }),
  // The south wall, left to right as seen from inside: from east to west.
  piece("wall.south", { from_m: [8, 0], to_m: [0, 0], height_m: 3, thickness_m: 0.2 }),
  piece("opening.door", { wall: "wall.south", kind: "door", along_m: 2, width_m: 0.9, height_m: 2.1 }),
  piece("opening.window", {
    wall: "wall.south",
    kind: "window",
    along_m: 5,
    width_m: 1,
    sill_m: 1,
    height_m: 1,
  }),
]);

const rows = (id: string, on: "plan" | "wall") => sizesOf(pieces, id, on).map((s) => [s.key, s.length_m]);

test("each side of a room is named by where it lies; its lower or left end stays", () => {
  const sizes = sizesOf(pieces, "room.hall", "plan");
  assert.deepEqual(
    sizes.map((s) => [s.words, s.length_m]),
    [
      ["south side", 8],
      ["east side", 5],
      ["north side", 8],
      ["west side", 5],
    ],
  );
  assert.deepEqual(
    sizes.map((s) => s.become(9)),
    [
      { do: "stretch", room: "room.hall", side: 0, length_m: 9, hold: "from" },
      { do: "stretch", room: "room.hall", side: 1, length_m: 9, hold: "from" },
      { do: "stretch", room: "room.hall", side: 2, length_m: 9, hold: "to" },
      { do: "stretch", room: "room.hall", side: 3, length_m: 9, hold: "to" },
    ],
  );
  assert.deepEqual(rows("room.hall", "wall"), []);
});

test("a wall has its length, on its elevation its height too", () => {
  assert.deepEqual(rows("wall.south", "plan"), [["length", 8]]);
  const [, height] = sizesOf(pieces, "wall.south", "wall");
  assert.deepEqual(height?.become(4), {
    edit: "all",
    title: "set height of wall.south: 4 m",
    edits: [{ edit: "set", id: "wall.south", key: "height_m", value: 4 }],
  });
});

test("an opening has its width and the distances from both corners", () => {
  assert.deepEqual(rows("opening.door", "plan"), [
    ["left", 2],
    ["width", 0.9],
    ["right", 5.1],
  ]);
  const right = sizesOf(pieces, "opening.door", "plan")[2];
  assert.equal(right?.words, "to the west corner");
  assert.deepEqual(right?.become(1), {
    edit: "all",
    title: "set distance from the left end of opening.door: 6.1 m",
    edits: [{ edit: "set", id: "opening.door", key: "along_m", value: 6.1 }],
  });
  assert.deepEqual(
    rows("opening.window", "wall").map(([key]) => key),
    ["left", "width", "right", "height", "sill"],
  );
  assert.equal(rows("opening.door", "wall").length, 4);
});

test("other things have none; an opening is seen on its wall", () => {
  assert.deepEqual(sizesOf(pieces, "point.a", "plan"), []);
  assert.equal(wallUnder(pieces, "opening.door"), "wall.south");
  assert.equal(wallUnder(pieces, "room.hall"), "");
});

test("directions of the plan", () => {
  assert.equal(compass([0, 1]), "north");
  assert.equal(compass([-1, -1]), "south-west");
});
