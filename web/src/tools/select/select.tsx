import { signal } from "@preact/signals";
import type { JobOutlet } from "../../api/types.gen.ts";
import { type Lifted, liftThings } from "../../paint/lift.ts";
import { choose, letGo, panel, selection, toggle } from "../../state/ask.ts";
import { frames, pieces, thingOf } from "../../state/live.ts";
import { say, trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { words } from "../../words/words.ts";
import { kindOf } from "../field.ts";
import { locate, onWindow, spot, wallHere } from "../hand.ts";
import { Ghost } from "../over.tsx";
import { everything } from "../snap.ts";
import { flatten, lift, minus, onScene, plus, type Spot, type Vec2, type Vec3 } from "../space.ts";
import type { Tool } from "../tool.ts";
import { type Carried, canMove, carriedBy, stretch } from "./carry.ts";

/** What is being moved; null for nothing. */
interface Moving {
  chosen: readonly string[];
  carried: Carried;
  lifted: Lifted;
  frame: Spot["frame"];
  /** The place that snaps, and the pointer when it was taken up. */
  lead: Vec3;
  raw: Vec2;
  by: Vec3;
}

const moving = signal<Moving | null>(null);

/** What was put down and has no answer yet: it is shown where it was put. */
const awaited = signal<readonly Moving[]>([]);

/** The place of a thing that snaps when it is moved: of points the point itself, else where it was taken up. */
function leadOf(id: string, s: Spot): Vec3 {
  const point = kindOf(id) === "outlet" ? thingOf<JobOutlet>(id)?.point : id;
  return pieces.value.get(point ?? "")?.at_m ?? s.at;
}

function takeUp(chosen: readonly string[], frame: Spot["frame"], lead: Vec3, raw: Vec2): void {
  const carried = carriedBy(pieces.value, chosen);
  const lifted = liftThings(
    carried.ids,
    carried.stretched.map((s) => s.id),
  );
  moving.value = { chosen, carried, lifted, frame, lead, raw, by: [0, 0, 0] };
}

/** Shows the things moved by as much. */
function carry(m: Moving, by: Vec3): void {
  const wall = wallHere(m.frame);
  const at = (p: Vec3) => onScene(m.frame, flatten(wall, p).at);
  const [dx, dy] = minus(at([m.lead[0] + by[0], m.lead[1] + by[1], m.lead[2] + by[2]]), at(m.lead));
  m.lifted.move(dx, dy);
  moving.value = { ...m, by };
}

const mm = (v: number) => Math.round(v * 1e4) / 1e4;

/** Puts them down where they are: one step in the history. What is shown stays until the answer has come. */
async function putDown(): Promise<void> {
  const m = moving.value;
  if (!m) return;
  moving.value = null;
  if (m.by.some((v) => Math.abs(v) > 1e-4)) {
    awaited.value = [...awaited.value, m];
    await step({ do: "drag", ids: m.chosen.filter((id) => canMove(pieces.value, id)), by_m: m.by.map(mm) });
    awaited.value = awaited.value.filter((a) => a !== m);
  }
  m.lifted.drop();
}

function putBack(): boolean {
  const had = moving.value;
  had?.lifted.drop();
  moving.value = null;
  return had !== null;
}

function grab(s: Spot): boolean {
  if (s.over === "" || kindOf(s.over) === "room" || !canMove(pieces.value, s.over)) return false;
  if (!selection.value.includes(s.over)) choose(s.over);
  takeUp(selection.value, s.frame, leadOf(s.over, s), s.raw);
  return true;
}

function drag(s: Spot): void {
  const m = moving.value;
  if (!m) return;
  const px = plus(onWindow(m.lead, m.frame), minus(s.raw, m.raw));
  const to = locate({ px, over: "", shift: s.shift, free: false, touch: false });
  if (!to || to.frame !== m.frame) return;
  spot.value = to;
  // Depth is kept: in a plan the height, on a wall the distance off it.
  const wall = wallHere(m.frame);
  const [a, b] = [flatten(wall, m.lead), flatten(wall, to.at)];
  const [p, q] = [lift(wall, a.at, 0), lift(wall, b.at, 0)];
  carry(m, [q[0] - p[0], q[1] - p[1], q[2] - p[2]]);
}

const nudgeStep = { plain: 0.05, fine: 0.01 };
const nudges: Record<string, Vec2> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

let resting: ReturnType<typeof setTimeout> | undefined;

/** Several nudges in a row are one step in the history. */
function nudge(way: Vec2, fine: boolean): void {
  const frame = moving.value?.frame ?? spot.value?.frame ?? frames.value.find((f) => f.kind !== "none");
  const id = selection.value.find((i) => canMove(pieces.value, i));
  if (!frame || !id) {
    trouble.value = { kind: "refused", words: words.select.still, lines: [] };
    return;
  }
  const wall = wallHere(frame);
  if (!moving.value) {
    const piece = pieces.value.get(id);
    takeUp(selection.value, frame, piece?.at_m ?? piece?.line_m?.[0] ?? lift(wall, [0, 0], 0), [0, 0]);
  }
  const m = moving.value;
  if (!m) return;
  const by = fine ? nudgeStep.fine : nudgeStep.plain;
  const right = frame.flip ? -1 : 1;
  const [p, q] = [lift(wall, [0, 0], 0), lift(wall, [way[0] * by * right, way[1] * by], 0)];
  carry(m, [m.by[0] + q[0] - p[0], m.by[1] + q[1] - p[1], m.by[2] + q[2] - p[2]]);
  say(lengthWords(Math.hypot(m.by[0], m.by[1], m.by[2]) + by));
  clearTimeout(resting);
  resting = setTimeout(() => void putDown(), 450);
}

function erase(): void {
  const ids = selection.value;
  if (ids.length === 0) return;
  void step({ do: "erase", ids }).then((o) => o.done && letGo());
}

function Over() {
  const all = moving.value ? [...awaited.value, moving.value] : awaited.value;
  return (
    <>{all.flatMap((m) => m.carried.stretched.map((s) => <Ghost key={s.id} at={stretch(s, m.by)} />))}</>
  );
}

/** Things can be moved where the drawing is to scale, and only if they have a place. */
function movableHere(): boolean {
  const scaled = frames.value.some((f) => f.kind === "plan" || f.kind === "wall");
  return scaled && selection.value.some((id) => canMove(pieces.value, id));
}

export const select: Tool = {
  id: "select",
  words: words.select.words,
  key: "v",
  part: "",
  hint: () => {
    if (moving.value) return words.select.dragging;
    const n = selection.value.length;
    if (n > 0 && !movableHere()) return words.select.elsewhere;
    return n === 0 ? words.select.idle : n === 1 ? words.select.chosen : words.select.several(n);
  },
  reach: () => ({ kinds: everything, standoff: 0, without: new Set(moving.value?.carried.ids) }),
  pick(id, shift) {
    // The floor of a room is nothing to be hit by chance; a double click opens it.
    if (id === "" || kindOf(id) === "room") {
      if (!shift) letGo();
    } else if (shift) toggle(id);
    else choose(id);
  },
  open(id) {
    if (id === "") return;
    choose(id);
    panel.value = "inspect";
  },
  marking: () => moving.value !== null,
  figures: () => [
    { words: words.select.by, figure: lengthWords(Math.hypot(...(moving.value?.by ?? [0, 0, 0]))) },
  ],
  grab,
  drag,
  drop: (s) => {
    drag(s);
    void putDown();
  },
  leave: putBack,
  stop: () => void putBack(),
  other(e) {
    const way = nudges[e.key];
    if (way && selection.value.length > 0 && !e.altKey && !e.ctrlKey && !e.metaKey) nudge(way, e.shiftKey);
    else if (e.key === "Delete" || e.key === "Backspace") erase();
    else return false;
    return true;
  },
  keys: [
    ["← → ↑ ↓", "go to the next thing; what is chosen is moved instead"],
    ["Enter", "choose it; again: open it"],
    ["Delete", "erase what is chosen"],
  ],
  Over,
};
