import assert from "node:assert/strict";
import test from "node:test";
import type { JobRoom, JobWall } from "../../api/types.gen.ts";
import { wallsOf, within } from "./standing.ts";

const room: JobRoom = {
  id: "room.hall",
  outline_m: [
    [0, 0],
    [8, 0],
    [8, 5],
    [0, 5],
  ],
  floor_m: 0,
  ceiling_m: 3,
};
const wall = (id: string, from: [number, number], to: [number, number], height_m = 3): JobWall => ({
  id,
  from_m: from,
  to_m: to,
  height_m,
  thickness_m: 0.1,
});

test("walls that go along with a ceiling stand on the outline and reach up to it", () => {
  const walls = [
    wall("wall.south", [8, 0], [0, 0]),
    wall("wall.part", [8, 1], [8, 4]),
    wall("wall.low", [0, 5], [8, 5], 1.2),
    wall("wall.across", [4, 0], [4, 5]),
    wall("wall.elsewhere", [12, 0], [20, 0]),
  ];
  assert.deepEqual(
    wallsOf(room, walls).map((w) => w.id),
    ["wall.south", "wall.part"],
  );
});

test("a place lies in a room or outside it", () => {
  assert.equal(within(room.outline_m, [4, 2]), true);
  assert.equal(within(room.outline_m, [9, 2]), false);
  const bent: [number, number][] = [
    [0, 0],
    [4, 0],
    [4, 4],
    [2, 4],
    [2, 2],
    [0, 2],
  ];
  assert.equal(within(bent, [1, 3]), false);
  assert.equal(within(bent, [3, 3]), true);
});
