import assert from "node:assert/strict";
import test from "node:test";
import type { ScreenPiece } from "../../api/types.gen.ts";
import { canMove, carriedBy, stretch } from "./carry.ts";

const piece = (id: string, thing: object, more: Partial<ScreenPiece> = {}): [string, ScreenPiece] => [
  id,
  { id, what: "", words: id, thing, ...more },
];

const run = (id: string, from: string, to: string) =>
  piece(
    id,
    { from: { point: from }, to: { point: to } },
    {
      line_m: [
        [0, 0, 1],
        [1, 0, 1],
        [2, 0, 1],
      ],
    },
  );

const pieces = new Map([
  piece("point.a", {}, { at_m: [0, 0, 1] }),
  piece("point.b", {}, { at_m: [2, 0, 1] }),
  piece("point.c", {}, { at_m: [4, 0, 1] }),
  run("line.1", "point.a", "point.b"),
  run("line.2", "point.b", "point.c"),
  piece("outlet.o", { point: "point.b" }),
  piece("wall.w", {}),
  piece("opening.d", { wall: "wall.w" }),
]);

test("a point takes its outlet along and stretches its runs at the right end", () => {
  const c = carriedBy(pieces, ["point.b"]);
  assert.deepEqual([...c.ids].sort(), ["outlet.o", "point.b"]);
  assert.deepEqual(
    c.stretched.map((s) => [s.id, s.from, s.to]),
    [
      ["line.1", false, true],
      ["line.2", true, false],
    ],
  );
  const [first] = c.stretched;
  assert.deepEqual(first && stretch(first, [0, 1, 0]), [
    [0, 0, 1],
    [1, 0, 1],
    [2, 1, 1],
  ]);
});

test("an outlet is moved by its point, a run with both its ends and what hangs there", () => {
  assert.deepEqual([...carriedBy(pieces, ["outlet.o"]).ids].sort(), ["outlet.o", "point.b"]);
  assert.deepEqual([...carriedBy(pieces, ["line.1"]).ids].sort(), [
    "line.1",
    "outlet.o",
    "point.a",
    "point.b",
  ]);
});

test("a run between two points that both move goes along whole", () => {
  const c = carriedBy(pieces, ["point.b", "point.c"]);
  assert.ok(c.ids.includes("line.2"));
  assert.deepEqual(
    c.stretched.map((s) => s.id),
    ["line.1"],
  );
});

test("openings stand in their wall; what the job does not have cannot be moved", () => {
  assert.ok(carriedBy(pieces, ["wall.w"]).ids.includes("opening.d"));
  assert.equal(canMove(pieces, "point.nowhere"), false);
  assert.equal(canMove(pieces, "plan.b"), false);
});
