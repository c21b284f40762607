import assert from "node:assert/strict";
import test from "node:test";
import type { DrawFrame } from "../api/types.gen.ts";
import { flatten, frameAt, into, lift, onPlane, onScene, outOf, type Vec2, type Vec3 } from "./space.ts";

// The room lies on the right of a wall's way: of one that runs north along x = 0, towards +x.
const west = { from: [0, 0], to: [0, 9], floor: 0 } as const;

const close = (a: readonly number[], b: readonly number[]) => {
  for (const [i, v] of a.entries()) assert.ok(Math.abs(v - (b[i] ?? Number.NaN)) < 1e-9, `${a} is not ${b}`);
};

test("a place on a wall is along, up and off into the room", () => {
  close(outOf(west, 2, 1.5, 0.05), [0.05, 2, 1.5]);
  close(into(west, [0.05, 2, 1.5]), [2, 1.5, 0.05]);
});

test("into is the inverse of outOf on a slanting wall above the floor", () => {
  const wall = { from: [1, 2], to: [4, 6], floor: 0.3 } as const;
  for (const at of [
    [0, 0, 0],
    [2.2, 1.1, 0.4],
    [5, 3, -0.2],
  ] as Vec3[])
    close(into(wall, outOf(wall, ...at)), at);
});

const frame = (over: Partial<DrawFrame>): DrawFrame => ({
  kind: "wall",
  min_m: [0, 0],
  max_m: [9, 4],
  origin_m: [0, 0],
  ...over,
});

test("a wall seen from behind runs to the left", () => {
  const f = frame({ origin_m: [12, 1], flip: true });
  close(onPlane(f, [10, 3]), [2, 2]);
  close(onScene(f, [2, 2]), [10, 3]);
});

test("scene and shop are each other's inverse in every frame", () => {
  for (const f of [
    frame({ kind: "plan", origin_m: [3, -1] }),
    frame({ origin_m: [20, 0.5] }),
    frame({ flip: true }),
  ]) {
    const wall = f.kind === "wall" ? west : undefined;
    const p: Vec2 = [4.2, 1.7];
    const at = lift(wall, onPlane(f, p), 0.25);
    const back = flatten(wall, at);
    close(onScene(f, back.at), p);
    assert.ok(Math.abs(back.depth - 0.25) < 1e-9);
  }
});

test("a place between two walls belongs to the nearer, and never to what is not to scale", () => {
  const a = frame({ wall: "wall.a" });
  const b = frame({ wall: "wall.b", min_m: [10, 0], max_m: [16, 4] });
  const none = frame({ kind: "none", min_m: [9, 0], max_m: [10, 4] });
  assert.equal(frameAt([a, b, none], [3, 2]), a);
  assert.equal(frameAt([a, b, none], [9.8, 2]), b);
  assert.equal(frameAt([none], [9.5, 2]), null);
});
