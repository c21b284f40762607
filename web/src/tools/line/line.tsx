import { signal } from "@preact/signals";
import type { DrawFrame } from "../../api/types.gen.ts";
import { stockRow } from "../../state/catalogue.ts";
import { frames, pieces } from "../../state/live.ts";
import { say } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { lineWords } from "../../words/lines.ts";
import { wallOf } from "../field.ts";
import { comeTo, height, spot, spotAt, standoff, wallHere } from "../hand.ts";
import { Dot, Ghost, Tag } from "../over.tsx";
import { everything } from "../snap.ts";
import { far3, into, outOf, type Spot, type Vec3, type WallFrame } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";
import {
  begin as beginAt,
  beside,
  type Course,
  cornerTo,
  goTo,
  last,
  lengthOf,
  lineGesture,
  places,
  riseTo,
  type Stand,
  standOf,
  takeBack,
  turns,
} from "./course.ts";
import { toCome } from "./fittings.ts";
import { kit, openKit } from "./kit.ts";
import { bench, ceilingAt, floorAt } from "./levels.ts";
import { LineOptions } from "./options.tsx";
import { taken } from "./taken.ts";

const words = lineWords.line;

/** The line being walked; null for none. */
const course = signal<Course | null>(null);
/** The next leg goes straight up or down. */
const upright = signal(false);
/** The line is on its way to the program. */
const sending = signal(false);
/** What was drawn did not fit and is still here. */
const refused = signal(false);

const walls = (id: string): WallFrame | undefined => wallOf(pieces.value, id);

/** The direction of the working height: up in a plan, off the face on a wall. */
export function axisOf(s: Spot): Vec3 {
  const wall = wallHere(s.frame);
  if (!wall) return [0, 0, 1];
  const [a, b] = [outOf(wall, 0, 0, 0), outOf(wall, 0, 0, 1)];
  return [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
}

/** On a wall a free place keeps the depth that the line has got to; the distance off the wall was for its beginning. */
export function keepDepth(c: Course, to: Stand, s: Spot): Stand {
  const wall = wallHere(s.frame);
  if (!wall || to.held || (last(c).wall && last(c).wall?.wall !== to.wall?.wall)) return to;
  const depth = into(wall, last(c).at)[2];
  if (Math.abs(depth) > 0.5) return to;
  const [along, up] = into(wall, to.at);
  return beside(to, outOf(wall, along, up, depth), walls);
}

/** How high an upright leg goes: as high as a spot right over its foot, where a length was typed; else to the working height. */
function uprightTo(c: Course, s: Spot): number {
  const [x, y] = last(c).at;
  const over = Math.hypot(s.at[0] - x, s.at[1] - y) < 1e-6;
  return over || wallHere(s.frame) ? s.at[2] : height.value;
}

/** The line as it would be with this spot set too. */
function withSpot(c: Course, s: Spot): Course {
  if (upright.value) return riseTo(c, uprightTo(c, s), walls);
  const to = keepDepth(c, standOf(s), s);
  const corner = wallHere(s.frame) ? cornerTo(c, to, walls) : null;
  return goTo(corner ? { ...c, via: [...c.via, corner] } : c, to, axisOf(s), walls);
}

function shownCourse(): Course | null {
  const c = course.value;
  const s = spot.value;
  return c && s && !sending.value ? withSpot(c, s) : c;
}

function clear(): boolean {
  const had = course.value !== null;
  course.value = null;
  upright.value = false;
  refused.value = false;
  sending.value = false;
  return had;
}

/** The line is whole: one step in the history. Where it does not fit, what was drawn stays. */
async function end(c: Course): Promise<void> {
  const gesture = lineGesture(c, kit.value);
  if (!gesture || sending.value) return;
  course.value = c;
  sending.value = true;
  upright.value = false;
  const outcome = await step(gesture);
  if (!sending.value) return; // dropped meanwhile
  sending.value = false;
  if (outcome.done) {
    clear();
    return;
  }
  refused.value = true;
  // An end on something that will not have it is let go; the corners stay.
  if (last(c).held) course.value = takeBack(c) ?? c;
}

function set(s: Spot): void {
  const c = course.value;
  if (sending.value) return;
  if (!c) {
    course.value = beginAt(standOf(s));
    return;
  }
  const next = withSpot(c, s);
  refused.value = false;
  if (next === c) return;
  const met = !upright.value && last(next).held;
  if (upright.value && !wallHere(s.frame)) height.value = last(next).at[2];
  upright.value = false;
  course.value = next;
  if (met) void end(next);
}

function finish(): void {
  const c = course.value;
  if (c && c.via.length > 0) void end(c);
}

/** Under the ceiling as much room is left as a take-off from the top needs, m. */
const underCeiling = 0.15;

const cm = (m: number): number => Math.round(m * 100) / 100;

/** Begins a leg straight up or down: at once to a height, or open, for keys and typing. */
function goUpright(way: 1 | -1): void {
  const c = course.value;
  const s = spot.value;
  if (!c || !s) return;
  const at = last(c).at;
  upright.value = true;
  const ahead = wallHere(s.frame) ? cm(at[2] + way * 0.5) : height.value;
  const wrong = way > 0 ? ahead <= at[2] + 0.02 : ahead >= at[2] - 0.02;
  const low = floorAt(pieces.value, at) + bench;
  const aim = wrong ? cm(way < 0 && low < at[2] - 0.02 ? low : at[2] + way * 0.5) : ahead;
  if (!wallHere(s.frame)) height.value = aim;
  comeTo(spotAt(s.frame, [at[0], at[1], aim]));
  say(`${way > 0 ? words.up : words.down} ${lengthWords(Math.abs(aim - at[2]))}`);
}

/** Straight to a height, which the line then keeps. */
function straightTo(z: number | undefined): void {
  const c = course.value;
  const s = spot.value;
  if (!c || z === undefined || sending.value) return;
  course.value = riseTo(c, z, walls);
  upright.value = false;
  refused.value = false;
  if (s && wallHere(s.frame)) comeTo(spotAt(s.frame, last(course.value).at));
  else {
    height.value = z;
    if (s) comeTo(spotAt(s.frame, [s.at[0], s.at[1], z], 1e-3, ["point", "run"]));
  }
  say(lengthWords(z));
}

/** A length typed on an upright leg is measured up or down, wherever the pointer is. */
function aimUpright(): void {
  const c = course.value;
  const s = spot.value;
  if (!c || !s) return;
  const [x, y] = last(c).at;
  comeTo(spotAt(s.frame, [x, y, wallHere(s.frame) ? s.at[2] : height.value]));
}

function other(e: KeyboardEvent): boolean {
  const c = course.value;
  if (!c || e.ctrlKey || e.altKey || e.metaKey) return false;
  const at = last(c).at;
  switch (e.key.toLowerCase()) {
    case "u":
      goUpright(1);
      return true;
    case "d":
      goUpright(-1);
      return true;
    case "b":
      straightTo(cm(floorAt(pieces.value, at) + bench));
      return true;
    case "c": {
      const top = ceilingAt(pieces.value, at);
      straightTo(top === undefined ? undefined : cm(top - underCeiling));
      return true;
    }
  }
  if (upright.value && /^\d$/.test(e.key)) aimUpright();
  return false;
}

function typedWords(): string {
  const [c, s] = [course.value, spot.value];
  if (!c || !s || !upright.value) return "";
  return uprightTo(c, s) < last(c).at[2] ? words.downBy : words.upBy;
}

/** The lowest ceiling that the way runs above. */
function overCeiling(at: readonly Vec3[]): number | undefined {
  const passed = at
    .map((p) => [p[2], ceilingAt(pieces.value, p) ?? p[2]] as const)
    .filter(([z, top]) => z > top);
  return passed.length > 0 ? Math.min(...passed.map(([, top]) => top)) : undefined;
}

function figures(s: Spot): Figure[] {
  const c = course.value;
  if (!c) return [];
  const next = withSpot(c, s);
  const at = places(next);
  const out: Figure[] = [{ words: words.leg, figure: lengthWords(far3(last(c).at, last(next).at)) }];
  if (at.length > 2) out.push({ words: words.all, figure: lengthWords(lengthOf(at)) });
  const low = overCeiling(at);
  if (low !== undefined) out.push({ words: words.ceiling, figure: lengthWords(low) });
  const bends = turns(at).length;
  if (bends > 0) out.push({ words: words.bends, figure: `${bends}` });
  return out;
}

/** On the walls each leg is drawn on the wall that it comes to, also when the hand has gone on to the next one. */
function frameOf(s: Stand): DrawFrame | undefined {
  const here = spot.value?.frame;
  if (!here || !wallHere(here) || !s.wall) return here;
  return frames.value.find((f) => f.wall === s.wall?.wall) ?? here;
}

function Over() {
  const c = shownCourse();
  if (!c) return null;
  const legs = c.via.map((to, i) => ({ to, from: c.via[i - 1] ?? c.from }));
  const set = course.value ? [course.value.from, ...course.value.via] : [];
  return (
    <>
      {legs.map(({ from, to }, i) => (
        <Ghost key={i} at={[from.at, to.at]} frame={frameOf(to)} />
      ))}
      {set.map((s, i) => (
        <Dot key={i} at={s.at} frame={frameOf(s)} />
      ))}
      {toCome(pieces.value, c, kit.value, stockRow, sending.value).map((t, i) => (
        <Tag key={`${i}${t.words}`} at={t.at} words={t.words} />
      ))}
    </>
  );
}

/** A line is walked corner by corner and posted when it is whole. */
export const line: Tool = {
  id: "line",
  words: words.words,
  key: "l",
  part: "lines",
  hint: () => {
    if (sending.value) return words.sending;
    if (refused.value) return words.kept;
    return course.value === null ? words.begin : upright.value ? words.upright : words.next;
  },
  reach: () => ({ kinds: everything, standoff: standoff.value, without: taken.value }),
  from: () => course.value && last(course.value).at,
  typedWords,
  figures,
  start: openKit,
  stop: () => void clear(),
  set,
  finish,
  back() {
    if (upright.value) {
      upright.value = false;
      return true;
    }
    refused.value = false;
    if (!course.value || sending.value) return false;
    course.value = takeBack(course.value);
    return true;
  },
  leave: clear,
  other,
  keys: words.keys,
  Over,
  Options: LineOptions,
};
