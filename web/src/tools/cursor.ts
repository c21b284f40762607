import { frames } from "../state/live.ts";
import { look, moveBy, pane } from "../state/look.ts";
import { comeTo, fieldHere, height, lookAgain, spot, spotAt, standoff, wallHere } from "./hand.ts";
import { flatten, lift, onPlane, onScene, plus, type Spot, times, type Vec2 } from "./space.ts";
import { next, type Stop, type Way } from "./walk.ts";

/** Steps of the keyboard's cursor, m. */
const step = { plain: 0.1, fine: 0.01 };

const ways: Record<Way, Vec2> = { left: [-1, 0], right: [1, 0], up: [0, 1], down: [0, -1] };

/** Where the cursor begins: where the hand was, else in the middle of what is in sight. */
export function cursor(): Spot | null {
  const now = spot.value;
  if (now) return now;
  const l = look.value;
  const middle: Vec2 = [
    l.left + pane.value.width / 2 / l.perMetre,
    l.top - pane.value.height / 2 / l.perMetre,
  ];
  const f = frames.value.find((f) => f.kind === "plan" || f.kind === "wall");
  if (!f) return null;
  const inside: Vec2 = [
    Math.min(Math.max(middle[0], f.min_m[0]), f.max_m[0]),
    Math.min(Math.max(middle[1], f.min_m[1]), f.max_m[1]),
  ];
  const wall = wallHere(f);
  const depth = wall ? standoff.value : height.value;
  return spotAt(f, lift(wall, onPlane(f, inside), depth));
}

/** One step in a direction of the screen; fine is a small one. */
export function stepCursor(way: Way, fine: boolean): void {
  const now = cursor();
  if (!now) return;
  const by = fine ? step.fine : step.plain;
  const scene = plus(now.scene, times(ways[way], by));
  const wall = wallHere(now.frame);
  const depth = flatten(wall, now.at).depth;
  arrive(spotAt(now.frame, lift(wall, onPlane(now.frame, scene), depth), by * 0.4));
}

/** To the next thing to snap to in a direction of the screen. */
export function jumpCursor(way: Way): void {
  const now = cursor();
  if (!now) return;
  const field = fieldHere(now.frame);
  const places: Vec2[] = [
    ...field.points.map((p) => p.at),
    ...field.lines.flatMap((l) => l.at),
    ...field.edges.flatMap((e) => {
      const off: Vec2 = e.off ? times(e.off, standoff.value) : [0, 0];
      const [from, to] = [plus(e.from, off), plus(e.to, off)];
      return [from, to, times(plus(from, to), 0.5)];
    }),
  ];
  // Walking counts y downwards, as the screen does.
  const stops: Stop[] = places.map((p, i) => {
    const at = onScene(now.frame, p);
    return { id: `${i}`, x: at[0] * 1000, y: -at[1] * 1000 };
  });
  stops.push({ id: "here", x: now.scene[0] * 1000, y: -now.scene[1] * 1000 });
  const found = places[Number(next(stops, "here", way))];
  if (!found) return;
  const wall = wallHere(now.frame);
  const depth = flatten(wall, now.at).depth;
  // The end of a face is its corner with the next one, as far off both as lines keep.
  arrive(spotAt(now.frame, lift(wall, found, depth), Math.max(0.02, standoff.value * 1.1)));
}

/** Up or down by the working height; on a wall off its face. */
export function raise(way: 1 | -1, fine: boolean): void {
  if (spot.value && wallHere(spot.value.frame))
    standoff.value = Math.max(0, round(standoff.value + way * (fine ? 0.001 : 0.01)));
  else height.value = round(height.value + way * (fine ? step.fine : step.plain));
  lookAgain();
}

const round = (m: number): number => Math.round(m * 1000) / 1000;

const edge = 60; // px from the edge of the window at which the drawing moves along

/** The cursor stays in sight. */
function arrive(s: Spot): void {
  comeTo(s);
  const over = (v: number, size: number) => Math.min(0, v - edge) + Math.max(0, v - (size - edge));
  const [dx, dy] = [over(s.px[0], pane.value.width), over(s.px[1], pane.value.height)];
  if (dx === 0 && dy === 0) return;
  moveBy(-dx, -dy);
  comeTo(spotAt(s.frame, s.at, 1e-6));
}
