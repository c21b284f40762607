import assert from "node:assert/strict";
import test from "node:test";
import { far, type Vec2 } from "../space.ts";
import {
  inPicture,
  type Laid,
  laidInto,
  matrixOf,
  onFloor,
  quarterTurned,
  scaledBy,
  shifted,
} from "./lay.ts";

const close = (a: Vec2, b: Vec2) => assert.ok(far(a, b) < 1e-9, `${a} is not ${b}`);

// 100 px are 1 m; the picture's upper left corner lies at 2, 8.
const plain: Laid = {
  marks_px: [
    [0, 600],
    [800, 600],
  ],
  at_m: [
    [2, 2],
    [10, 2],
  ],
};

test("a place of the picture and its place on the floor lead to each other", () => {
  close(onFloor(plain, [0, 0]), [2, 8]);
  close(onFloor(plain, [400, 300]), [6, 5]);
  const askew: Laid = {
    marks_px: plain.marks_px,
    at_m: [
      [1, 1],
      [4, 5],
    ],
  };
  for (const p of [
    [17, 23],
    [800, 0],
    [-5, 900],
  ] as Vec2[])
    close(inPicture(askew, onFloor(askew, p)), p);
});

test("a new picture fills what is in sight and keeps its shape", () => {
  const l = laidInto([800, 400], [0, 0], [16, 10]);
  close(onFloor(l, [0, 0]), [0, 9]);
  close(onFloor(l, [800, 400]), [16, 1]);
});

test("scaled by two places: the first stays, the distance holds", () => {
  const l = scaledBy(plain, [100, 500], [500, 500], 10, false);
  close(onFloor(l, [100, 500]), onFloor(plain, [100, 500]));
  close(onFloor(l, [500, 500]), [13, 3]);
});

test("a scan that lies askew is straightened by the line between the marks", () => {
  const l = scaledBy(plain, [100, 500], [500, 480], 8, true);
  close(onFloor(l, [500, 480]), [11, 3]);
  const up = scaledBy(plain, [100, 500], [90, 100], 8, true);
  close(onFloor(up, [90, 100]), [3, 11]);
});

test("a quarter turn keeps the middle and turns to the right", () => {
  const l = quarterTurned(plain, [800, 600]);
  close(onFloor(l, [400, 300]), [6, 5]);
  close(onFloor(l, [0, 300]), [6, 9]);
  close(onFloor(shifted(l, [1, 2]), [400, 300]), [7, 7]);
});

test("the matrix lays pixels where the floor has them in the window", () => {
  const to = (p: Vec2): Vec2 => [p[0] * 50, 500 - p[1] * 50];
  assert.equal(matrixOf(plain, to), "matrix(0.5 0 0 0.5 100 100)");
});
