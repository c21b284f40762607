import assert from "node:assert/strict";
import test from "node:test";
import type { CatalogueStock, ScreenPiece } from "../../api/types.gen.ts";
import type { Vec3, WallFrame } from "../space.ts";
import {
  begin,
  type Course,
  cornerTo,
  goTo,
  lengthOf,
  lineGesture,
  type Made,
  places,
  riseTo,
  type Stand,
  takeBack,
  turns,
} from "./course.ts";
import { toCome } from "./fittings.ts";
import { inside } from "./levels.ts";
import { usual } from "./usual.ts";

const up: Vec3 = [0, 0, 1];
const north: WallFrame = { from: [0, 6], to: [8, 6], floor: 0 };
const walls = (id: string) => (id === "wall.north" ? north : undefined);

const free = (...at: [number, number, number]): Stand => ({ at, wall: null, held: null });
const atRun = (...at: [number, number, number]): Stand => ({
  at,
  wall: null,
  held: { run: "line.main", along_m: 2 },
});
const walk = (from: Stand, ...to: Stand[]): Course => to.reduce((c, s) => goTo(c, s, up, walls), begin(from));

const copper: Made = { stock: "tube", size: "22", role: "main", state: "planned", corners: "" };

test("on one level every place set is a corner", () => {
  const c = walk(free(0, 0, 2), free(4, 0, 2), free(4, 3, 2));
  assert.deepEqual(places(c), [
    [0, 0, 2],
    [4, 0, 2],
    [4, 3, 2],
  ]);
  assert.equal(lengthOf(places(c)), 7);
  assert.deepEqual(
    turns(places(c)).map((t) => Math.round(t.turn)),
    [90],
  );
});

test("to a free place at another height the line rises first", () => {
  assert.deepEqual(places(walk(free(0, 0, 1), free(4, 0, 2.4))), [
    [0, 0, 1],
    [0, 0, 2.4],
    [4, 0, 2.4],
  ]);
});

test("to a thing at another height it goes over first and comes down on it", () => {
  assert.deepEqual(places(walk(free(0, 0, 2.4), atRun(4, 0, 1))), [
    [0, 0, 2.4],
    [4, 0, 2.4],
    [4, 0, 1],
  ]);
});

test("a fall of two in a hundred needs no corner", () => {
  assert.equal(walk(free(0, 0, 2.4), free(6, 0, 2.34)).via.length, 1);
});

test("a rise keeps to the wall, measured from its floor", () => {
  const on: Stand = {
    at: [2, 5.95, 2.4],
    wall: { wall: "wall.north", along_m: 2, up_m: 2.4, off_m: 0.05 },
    held: null,
  };
  const [corner] = riseTo(begin(on), 1.1, walls).via;
  assert.ok(corner?.wall);
  assert.equal(corner.wall.wall, "wall.north");
  for (const [got, want] of [
    [corner.wall.along_m, 2],
    [corner.wall.up_m, 1.1],
    [corner.wall.off_m, 0.05],
  ] as const)
    assert.ok(Math.abs(got - want) < 1e-9, `${got} is not ${want}`);
});

test("a leg back along the last one shortens it", () => {
  const down = riseTo(walk(free(0, 0, 2.4), free(4, 0, 2.4)), 1.1, walls);
  assert.deepEqual(places(riseTo(down, 2, walls)).slice(1), [
    [4, 0, 2.4],
    [4, 0, 2],
  ]);
  assert.equal(riseTo(down, 2.4, walls).via.length, 1);
  assert.deepEqual(places(goTo(walk(free(0, 0, 2), free(4, 0, 2)), free(3, 0, 2), up, walls)), [
    [0, 0, 2],
    [3, 0, 2],
  ]);
});

test("from wall to wall the line is led into the corner", () => {
  const two = (id: string) =>
    (id === "wall.east" ? { from: [8, 6], to: [8, 0], floor: 0 } : walls(id)) as WallFrame;
  const on = (wall: string, along_m: number, ...at: [number, number, number]): Stand => ({
    at,
    wall: { wall, along_m, up_m: at[2], off_m: 0.05 },
    held: null,
  });
  const c = begin(on("wall.north", 2, 2, 5.95, 2.4));
  const corner = cornerTo(c, on("wall.east", 3, 7.95, 3, 2.4), two);
  assert.deepEqual(
    corner?.at.map((v) => Math.round(v * 1000) / 1000),
    [7.95, 5.95, 2.4],
  );
  assert.equal(cornerTo(c, on("wall.north", 5, 5, 5.95, 2.4), two), null);
});

test("the same place again changes nothing; corners are taken back down to nothing", () => {
  const c = walk(free(0, 0, 2), free(4, 0, 2));
  assert.equal(goTo(c, free(4, 0, 2), up, walls), c);
  const once = takeBack(c);
  assert.equal(once?.via.length, 0);
  assert.equal(once && takeBack(once), null);
});

test("the gesture leaves out what is no corner and what is not said", () => {
  const c = walk(atRun(0, 0, 2), free(2, 0, 2), free(4, 0, 2), free(4, 3, 2));
  assert.deepEqual(lineGesture(c, copper), {
    do: "line",
    from: { run: "line.main", along_m: 2 },
    via: [{ at_m: [4, 0, 2] }],
    to: { place: { at_m: [4, 3, 2] } },
    stock: "tube",
    size: "22",
    role: "main",
  });
  assert.equal(lineGesture(begin(free(0, 0, 0)), copper), null);
});

test("the state is said where it is not the usual one, the flexible link where there is one", () => {
  const g = lineGesture(walk(free(0, 0, 2), free(4, 0, 2)), { ...copper, state: "existing" }, true);
  assert.deepEqual([g && "state" in g && g.state, g && "flexible" in g && g.flexible], ["existing", true]);
});

const piece = (id: string, thing: object): [string, ScreenPiece] => [id, { id, what: "", words: id, thing }];
const shop = new Map([
  piece("line.main", { from: { point: "point.a" }, to: { point: "point.b" }, stock: "tube", size: "28" }),
  piece("point.a", { part: { kind: "receiver" } }),
  piece("point.b", { part: { kind: "joint" } }),
]);
const row = () => ({ corners: "elbow" }) as CatalogueStock;

test("the fittings to come are named where they will be", () => {
  const c = walk(atRun(0, 0, 2), free(4, 0, 2), free(6, 2, 2), {
    ...free(6, 5, 2),
    held: { point: "point.b" },
  });
  assert.deepEqual(
    toCome(shop, c, copper, row, false).map((t) => t.words),
    ["tee, branch 22", "45° elbow", "45° elbow", "reducer"],
  );
  const same = { ...copper, size: "28" };
  assert.deepEqual(
    toCome(shop, walk({ ...free(0, 0, 2), held: { point: "point.a" } }, free(0, 4, 2)), same, row, true).map(
      (t) => t.words,
    ),
    ["joins", "open end"],
  );
});

test("new lines are of what the job has most of", () => {
  const run = (stock: string, size: string) => ({ stock, size }) as Parameters<typeof usual>[0][number];
  assert.deepEqual(usual([run("a", "1"), run("b", "2"), run("b", "2")]), { stock: "b", size: "2" });
  assert.equal(usual([]), null);
});

test("a place lies in an outline or not", () => {
  const l: [number, number][] = [
    [0, 0],
    [4, 0],
    [4, 2],
    [2, 2],
    [2, 4],
    [0, 4],
  ];
  assert.ok(inside(l, [1, 3]));
  assert.ok(!inside(l, [3, 3]));
});
