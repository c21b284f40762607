import assert from "node:assert/strict";
import { test } from "node:test";
import {
  answersOf,
  type Draft,
  firstDraft,
  mended,
  placeCount,
  questionOf,
  sentences,
  unread,
} from "./answers.ts";

const draft = (more: Partial<Draft> = {}): Draft => ({ ...firstDraft("metric"), ...more });
const typed = (text: string, si: number | null) => ({ text, si, echo: text });

test("Enter all the way through gives a whole shop", () => {
  assert.deepEqual(answersOf(draft()), {
    units: "metric",
    room: {
      height_m: 3,
      climate: "heated",
      width_m: 8,
      depth_m: 6,
      doors: [{ wall: "south", kind: "door" }],
    },
    tools: [
      { item: "blow-gun", count: 2 },
      { item: "impact-wrench-1/2", count: 1 },
      { item: "ratchet", count: 1 },
    ],
    spread: 4,
  });
});

test("in feet the usual room is one of round feet", () => {
  const room = (answersOf(firstDraft("us")) as { room: { width_m: number; height_m: number } }).room;
  assert.equal(room.width_m, 7.925); // 26 ft
  assert.equal(room.height_m, 3.048); // 10 ft
});

test("a plate goes as the file has it: kPa, kW, litres, and what was read", () => {
  const plate = draft({
    source: "plate",
    free: typed("18 cfm", 0.008495),
    cutIn: typed("7 bar", 7e5),
    cutOut: typed("9 bar", 9e5),
    power: typed("4 kW", 4000),
    receiver: typed("270 L", 0.27),
  });
  assert.deepEqual((answersOf(plate) as { compressor: object }).compressor, {
    free_air: { m3_s: 0.008495, read: "18 cfm" },
    cut_in_kPa_g: 700,
    cut_out_kPa_g: 900,
    power_kW: 4,
    volume_L: 270,
  });
});

test("what was typed on a plate does not count once another answer is chosen", () => {
  assert.ok(!("compressor" in answersOf(draft({ source: "unknown", free: typed("18 cfm", 0.0085) }))));
  const listed = answersOf(
    draft({ source: "listed", machine: "piston-4", stand: { wall: "east", along: 1.23456 } }),
  );
  assert.deepEqual((listed as { compressor: object }).compressor, {
    machine: "piston-4",
    place: { wall: "east", along_m: 1.235 },
  });
});

test("places have tools by their names; without a place they are spread", () => {
  const places = [
    { key: 1, name: " Bench ", wall: "north", along: 2, tools: ["blow-gun"] },
    { key: 2, name: "Lift", wall: "east", along: 3, tools: [] },
  ];
  const said = answersOf(draft({ pick: true, places })) as {
    places: object[];
    tools: object[];
    spread?: number;
  };
  assert.deepEqual(said.places[0], { name: "Bench", wall: "north", along_m: 2 });
  assert.deepEqual(said.tools[0], { item: "blow-gun", count: 2, at: ["Bench"] });
  assert.deepEqual(said.tools[1], { item: "impact-wrench-1/2", count: 1 });
  assert.equal(said.spread, undefined);
  assert.equal((answersOf(draft({ pick: true })) as { spread: number }).spread, 4);
  assert.equal(placeCount(draft({ spread: 90 })), 60);
});

test("an L goes by its outline", () => {
  const said = answersOf(draft({ shape: "ell" })) as { room: Record<string, unknown> };
  assert.equal((said.room.outline_m as number[][]).length, 6);
  assert.equal(said.room.width_m, undefined);
});

test("what cannot be read is told by its question", () => {
  assert.deepEqual(unread(draft()), []);
  assert.deepEqual(unread(draft({ width: typed("8 x", null) })), [1]);
  assert.deepEqual(unread(draft({ shape: "ell", notchWidth: typed("9 m", 9) })), [1]);
  assert.deepEqual(unread(draft({ source: "plate", free: typed("fast", null) })), [2]);
  assert.deepEqual(unread(draft({ source: "plate", free: typed("", null) })), []);
  assert.equal(questionOf("start.room.height_m"), 1);
  assert.equal(questionOf("compressor.cut_in_kPa_g"), 2);
  assert.equal(questionOf("tools[3].item"), 3);
  assert.equal(questionOf("places[0].name"), 4);
  assert.equal(questionOf("stock"), 5);
});

test("each answer is one sentence", () => {
  const [room, compressor, tools, places, money] = sentences(draft(), null);
  assert.equal(room, "8.00 m by 6.00 m, 3.00 m high, one door");
  assert.equal(compressor, "the smallest that does");
  assert.equal(tools, "2 × blow-gun, impact-wrench-1/2, ratchet");
  assert.equal(places, "4 places, evenly round the walls");
  assert.equal(money, "no sum said, metric");
});

test("the nearest unit is put behind the figure that was typed", () => {
  assert.equal(mended("7 bra", "bar"), "7 bar");
  assert.equal(mended("3 1/2 inn", "in"), "3 1/2 in");
  assert.equal(mended("twelve feet", "12 ft"), "12 ft");
  assert.equal(mended("bra", "bar"), "bar");
});
