import { signal } from "@preact/signals";
import { choose } from "../../state/ask.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { buildingWords } from "../../words/building.ts";
import { spot } from "../hand.ts";
import { Dot, Ghost } from "../over.tsx";
import { flatOf } from "../place.ts";
import { far, outOf, type Spot, type Vec2 } from "../space.ts";
import type { Tool } from "../tool.ts";
import { EntryField, settleAll, typesSizes, WordField } from "./entry.tsx";
import { ToolForm } from "./form.tsx";
import { beginKit, madeOf, thickness, wallHeight } from "./kit.ts";
import { buildingReach, ground, WallMake } from "./room.tsx";

const words = buildingWords.wall;

const begun = signal<Vec2 | null>(null);
const name = signal("");

function clear(): boolean {
  const had = begun.value !== null;
  begun.value = null;
  return had;
}

async function draw(from: Vec2, to: Vec2): Promise<void> {
  if (!(await settleAll(wallHeight, thickness))) {
    trouble.value = { kind: "refused", words: buildingWords.unread, lines: [] };
    return;
  }
  const o = await step({
    do: "wall",
    ...(name.value.trim() ? { name: name.value.trim() } : {}),
    from_m: from,
    to_m: to,
    height_m: wallHeight.si.value ?? 0,
    thickness_m: thickness.si.value ?? 0,
    ...(madeOf.value ? { made_of: madeOf.value } : {}),
  });
  if (!o.done) {
    // The wall is still to be drawn from where it began.
    begun.value = from;
    return;
  }
  name.value = "";
  if (o.made[0]) choose(o.made[0]);
}

function set(s: Spot): void {
  const to = flatOf(s);
  const from = begun.value;
  if (from && far(from, to) < 1e-3) return;
  begun.value = to;
  if (from) void draw(from, to);
}

function Over() {
  const from = begun.value;
  const s = spot.value;
  if (!from) return null;
  const to = s ? flatOf(s) : from;
  const thick = thickness.si.value ?? 0;
  const frame = { from, to, floor: 0 };
  const long = far(from, to);
  const body = [
    outOf(frame, 0, 0, 0),
    outOf(frame, long, 0, 0),
    outOf(frame, long, 0, -thick),
    outOf(frame, 0, 0, -thick),
  ];
  return (
    <>
      {long > 0 && <Ghost at={body} closed />}
      <Dot at={ground(from)} />
    </>
  );
}

function Options() {
  return (
    <ToolForm>
      <WordField label={buildingWords.name} of={name} />
      <EntryField label={buildingWords.height} of={wallHeight} />
      <WallMake />
    </ToolForm>
  );
}

/** A wall from place to place, and on from there. */
export const wall: Tool = {
  id: "wall",
  words: words.words,
  key: "w",
  part: "building",
  frames: ["plan"],
  flat: true,
  hint: () => (begun.value ? words.next : words.begin),
  reach: buildingReach,
  start: beginKit,
  from: () => begun.value && ground(begun.value),
  set,
  finish: () => void clear(),
  back: clear,
  leave: clear,
  stop: () => void clear(),
  grab(s) {
    if (begun.value) return false;
    begun.value = flatOf(s);
    return true;
  },
  drop(s) {
    set(s);
    clear();
  },
  other: typesSizes,
  keys: [buildingWords.typeKey],
  Over,
  Options,
};
