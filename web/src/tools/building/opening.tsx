import { signal } from "@preact/signals";
import type { JobOpening } from "../../api/types.gen.ts";
import { choose } from "../../state/ask.ts";
import { pieces, thingOf } from "../../state/live.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { buildingWords } from "../../words/building.ts";
import { wallOf } from "../field.ts";
import { spot, wallHere } from "../hand.ts";
import { Choice } from "../line/options.tsx";
import { Ghost } from "../over.tsx";
import { everything, type SnapKind } from "../snap.ts";
import { flatten, outOf, type Spot, type Vec2, type Vec3, wallLength } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";
import { EntryField, entry, put, settleAll, typesSizes, WordField } from "./entry.tsx";
import { ToolForm } from "./form.tsx";
import { foot, rounded } from "./kit.ts";
import { endsOf } from "./size.ts";
import { beside, type Span, spanAbout, spanBetween } from "./span.ts";

const words = buildingWords.opening;

type Kind = JobOpening["kind"];

/** Usual sizes, m, round in the person's own units; changed at will. */
function usual(of: Kind): Omit<Span, "along"> {
  switch (of) {
    case "door":
      return { width: rounded(0.9, 3 * foot), sill: 0, height: rounded(2.1, 7 * foot) };
    case "gate":
      return { width: rounded(3, 10 * foot), sill: 0, height: rounded(3, 10 * foot) };
    case "window":
      return { width: rounded(1.2, 4 * foot), sill: rounded(1, 3 * foot), height: rounded(1, 3 * foot) };
    case "gap":
      return { width: rounded(1.2, 4 * foot), sill: 0, height: rounded(2.1, 7 * foot) };
  }
}

const kind = signal<Kind>("door");
const name = signal("");
const width = entry("length");
const height = entry("length");
const sill = entry("length");

/** Where a drag along a wall began. */
const pressed = signal<{ wall: string; at: Vec2 } | null>(null);

function takeKind(to: Kind): void {
  kind.value = to;
  const size = usual(to);
  put(width, size.width);
  put(height, size.height);
  put(sill, size.sill);
}

const typed = (): Omit<Span, "along"> => ({
  width: width.si.value ?? 0,
  sill: sill.si.value ?? 0,
  height: height.si.value ?? 0,
});

/** Where on which wall a spot is; null off every wall. */
function onWall(s: Spot): { wall: string; at: Vec2 } | null {
  return s.wall && { wall: s.wall.wall, at: [s.wall.along_m, s.wall.up_m] };
}

/** The opening that would stand with the hand at a spot. */
function spanAt(s: Spot): { wall: string; span: Span } | null {
  const begun = pressed.value;
  const id = begun?.wall ?? onWall(s)?.wall ?? "";
  const frame = wallOf(pieces.value, id);
  if (!frame) return null;
  const long = wallLength(frame);
  const at = flatten(frame, s.at).at;
  if (!begun) return { wall: id, span: spanAbout(long, at[0], typed()) };
  const tall = wallHere(s.frame) !== undefined;
  return { wall: id, span: spanBetween(long, begun.at, at, typed(), tall, kind.value !== "window") };
}

async function place(wall: string, span: Span): Promise<void> {
  const called = name.value.trim();
  const o = await step({
    do: "opening",
    wall,
    kind: kind.value,
    ...(called ? { name: called } : {}),
    along_m: span.along,
    width_m: span.width,
    sill_m: span.sill,
    height_m: span.height,
  });
  if (!o.done) return;
  name.value = "";
  if (o.made[0]) choose(o.made[0]);
}

async function set(s: Spot): Promise<void> {
  const read = await settleAll(width, height, sill);
  const now = spanAt(s);
  pressed.value = null;
  if (read && now) await place(now.wall, now.span);
  else trouble.value = { kind: "refused", words: read ? words.off : buildingWords.unread, lines: [] };
}

function figures(s: Spot): Figure[] {
  const now = spanAt(s);
  const frame = wallOf(pieces.value, now?.wall ?? "");
  if (!now || !frame) return [];
  const [left, right] = beside(wallLength(frame), now.span);
  const [toLeft, toRight] = endsOf(frame, wallHere(s.frame) ? "wall" : "plan");
  return [
    { words: words.wide, figure: lengthWords(now.span.width) },
    { words: toLeft, figure: lengthWords(left) },
    { words: toRight, figure: lengthWords(right) },
  ];
}

function Over() {
  const s = spot.value;
  const now = s && spanAt(s);
  const frame = wallOf(pieces.value, now?.wall ?? "");
  if (!s || !now || !frame) return null;
  const { along, width: wide, sill: low, height: high } = now.span;
  const thick = thingOf<{ thickness_m: number }>(now.wall)?.thickness_m ?? 0;
  const corners: readonly Vec3[] = wallHere(s.frame)
    ? [
        outOf(frame, along, low, 0),
        outOf(frame, along + wide, low, 0),
        outOf(frame, along + wide, low + high, 0),
        outOf(frame, along, low + high, 0),
      ]
    : [
        outOf(frame, along, 0, 0),
        outOf(frame, along + wide, 0, 0),
        outOf(frame, along + wide, 0, -thick),
        outOf(frame, along, 0, -thick),
      ];
  return <Ghost at={corners} closed />;
}

function Options() {
  return (
    <ToolForm>
      <Choice
        label={buildingWords.kind}
        value={kind.value}
        rows={Object.entries(words.kinds)}
        change={(v) => takeKind(v as Kind)}
      />
      <EntryField label={buildingWords.width} of={width} />
      <EntryField label={buildingWords.height} of={height} />
      <EntryField label={buildingWords.sill} of={sill} />
      <WordField label={buildingWords.name} of={name} />
    </ToolForm>
  );
}

const kinds: ReadonlySet<SnapKind> = new Set([...everything].filter((k) => k !== "point" && k !== "run"));

/** A door, gate, window or gap: a click on a wall, or a drag along it, on the plan and on the wall itself. */
export const opening: Tool = {
  id: "opening",
  words: words.words,
  key: "o",
  part: "building",
  flat: true,
  hint: () => words.begin,
  reach: () => ({ kinds, standoff: 0 }),
  start() {
    if (width.si.value === null && width.text.value === null) takeKind(kind.value);
  },
  figures,
  set: (s) => void set(s),
  leave() {
    const had = pressed.value !== null;
    pressed.value = null;
    return had;
  },
  stop() {
    pressed.value = null;
  },
  grab(s) {
    pressed.value = onWall(s);
    return pressed.value !== null;
  },
  drop: (s) => void set(s),
  other: typesSizes,
  keys: [buildingWords.typeKey],
  Over,
  Options,
};
