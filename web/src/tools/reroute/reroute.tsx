import { signal } from "@preact/signals";
import type { JobRun } from "../../api/types.gen.ts";
import { chosen } from "../../state/ask.ts";
import { pieces, thingOf } from "../../state/live.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { lineWords } from "../../words/lines.ts";
import { kindOf, wallOf } from "../field.ts";
import { spot, standoff } from "../hand.ts";
import {
  type Course,
  goTo,
  last,
  leadTo,
  lengthOf,
  placeOfStand,
  places,
  type Stand,
  standOf,
  takeBack,
  turn,
} from "../line/course.ts";
import { axisOf } from "../line/line.tsx";
import { Dot, Ghost } from "../over.tsx";
import { everything } from "../snap.ts";
import type { Spot } from "../space.ts";
import type { Tool } from "../tool.ts";

const words = lineWords.reroute;

/** The run that goes another way, its far end, and the corners so far. */
interface Anew {
  run: string;
  to: Stand;
  course: Course;
}

const anew = signal<Anew | null>(null);

const walls = (id: string) => wallOf(pieces.value, id);

function begin(run: string): void {
  const line = pieces.value.get(run)?.line_m;
  const thing = thingOf<JobRun>(run);
  const [a, b] = [line?.[0], line?.[line.length - 1]];
  if (!a || !b || !thing) return;
  anew.value = {
    run,
    to: { at: b, wall: null, held: { point: thing.to.point } },
    course: { from: { at: a, wall: null, held: { point: thing.from.point } }, via: [] },
  };
}

/** The whole way with its far end. */
const whole = (n: Anew, s: Spot): Course => ({
  ...n.course,
  via: [...n.course.via, ...leadTo(n.course, n.to, axisOf(s), walls)],
});

async function end(n: Anew, s: Spot): Promise<void> {
  const c = whole(n, s);
  const at = places(c);
  const via = c.via
    .slice(0, -1)
    .filter((_, i) => {
      const [a, b, d] = [at[i], at[i + 1], at[i + 2]];
      return a && b && d && turn(a, b, d) > 3;
    })
    .map(placeOfStand);
  const outcome = await step({ do: "reroute", run: n.run, ...(via.length > 0 ? { via } : {}) });
  if (outcome.done) anew.value = null;
}

function set(s: Spot): void {
  const n = anew.value;
  if (!n) {
    if (s.snap?.kind === "run") begin(s.snap.id);
    return;
  }
  const held = n.to.held;
  if (s.snap?.kind === "point" && held && "point" in held && s.snap.id === held.point) {
    void end(n, s);
    return;
  }
  // Corners are free places: what lies there is passed by, not joined.
  const free: Stand = { ...standOf(s), held: null };
  anew.value = { ...n, course: goTo(n.course, free, axisOf(s), walls) };
}

function clear(): boolean {
  const had = anew.value !== null;
  anew.value = null;
  return had;
}

function Over() {
  const n = anew.value;
  const s = spot.value;
  if (!n) return null;
  const now = s ? { ...n, course: goTo(n.course, { ...standOf(s), held: null }, axisOf(s), walls) } : n;
  return (
    <>
      {s && <Ghost at={places(whole(now, s))} faint={true} />}
      <Ghost at={places(now.course)} />
      {places(n.course).map((p, i) => (
        <Dot key={i} at={p} />
      ))}
      <Dot at={n.to.at} />
    </>
  );
}

/** A run is led another way between its two ends. */
export const reroute: Tool = {
  id: "reroute",
  words: words.words,
  key: "",
  part: "lines",
  hint: () => (anew.value ? words.next : words.begin),
  reach: () =>
    anew.value
      ? { kinds: everything, standoff: standoff.value }
      : { kinds: new Set(["run"] as const), standoff: 0 },
  from: () => (anew.value ? last(anew.value.course).at : null),
  figures: (s) =>
    anew.value ? [{ words: words.all, figure: lengthWords(lengthOf(places(whole(anew.value, s)))) }] : [],
  start() {
    if (kindOf(chosen.value) === "line") begin(chosen.value);
  },
  stop: () => void clear(),
  set,
  finish: (s) => {
    if (anew.value) void end(anew.value, s);
  },
  back() {
    const n = anew.value;
    if (!n) return false;
    const back = takeBack(n.course);
    anew.value = back && { ...n, course: back };
    return true;
  },
  leave: clear,
  Over,
};
