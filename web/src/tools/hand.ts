import { computed, signal } from "@preact/signals";
import type { DrawFrame } from "../api/types.gen.ts";
import { frames, pieces } from "../state/live.ts";
import { type Look, look } from "../state/look.ts";
import { gridFor } from "../state/unit.ts";
import { fieldOf, wallOf } from "./field.ts";
import { everything, type Field, type Found, find, type Reach, type Search, type SnapKind } from "./snap.ts";
import {
  flatten,
  frameAt,
  lift,
  onPlane,
  onScene,
  type Spot,
  type Vec2,
  type Vec3,
  type WallFrame,
} from "./space.ts";
import { tool } from "./tool.ts";

/** Where the pointer or the keyboard's cursor is; null outside every frame. */
export const spot = signal<Spot | null>(null);

/** The height that is drawn at in a plan, m. */
export const height = signal(2.4);

/** How far off a wall's face lines are drawn, m. */
export const standoff = signal(0.05);

/** How near the pointer must come to something, px: a finger is broader. */
const nearPixels = { mouse: 11, touch: 22 };

interface Ground {
  wall: WallFrame | undefined;
  field: Field;
}

/** What each frame holds is worked out when it is first pointed at, and anew when the job has changed. */
const grounds = computed(() => {
  const known = new Map<DrawFrame, Ground>();
  const now = pieces.value;
  return (f: DrawFrame): Ground => {
    let g = known.get(f);
    if (!g) {
      g = { wall: f.kind === "wall" ? wallOf(now, f.wall ?? "") : undefined, field: fieldOf(now, f) };
      known.set(f, g);
    }
    return g;
  };
});

export const fieldHere = (f: DrawFrame): Field => grounds.value(f).field;
/** The wall that a frame shows; undefined in a plan. */
export const wallHere = (f: DrawFrame): WallFrame | undefined => grounds.value(f).wall;

export const sceneAt = (l: Look, px: Vec2): Vec2 => [l.left + px[0] / l.perMetre, l.top - px[1] / l.perMetre];
export const windowAt = (l: Look, p: Vec2): Vec2 => [
  (p[0] - l.left) * l.perMetre,
  (l.top - p[1]) * l.perMetre,
];

/** Where a place of the shop stands in the window, in one of the frames; the first fits a plan. */
export function onWindow(at: Vec3, f: DrawFrame | undefined = spot.value?.frame ?? frames.value[0]): Vec2 {
  if (!f) return [0, 0];
  return windowAt(look.value, onScene(f, flatten(grounds.value(f).wall, at).at));
}

const reachNow = (): Reach => tool.value?.reach?.() ?? { kinds: everything, standoff: standoff.value };

function spotOf(f: DrawFrame, found: Found, over: string, shift: boolean, raw?: Vec2): Spot {
  const { wall } = grounds.value(f);
  const scene = onScene(f, found.at);
  const px = windowAt(look.value, scene);
  return {
    px,
    raw: raw ?? px,
    scene,
    at: lift(wall, found.at, found.depth),
    wall: wallPlace(f, wall, found),
    frame: f,
    snap: found.snap,
    over,
    shift,
  };
}

/** The place as one on a wall: in an elevation always, in a plan where the spot keeps to a wall's face. */
function wallPlace(f: DrawFrame, wall: WallFrame | undefined, found: Found): Spot["wall"] {
  if (wall) return { wall: f.wall ?? "", along_m: found.at[0], up_m: found.at[1], off_m: found.depth };
  const id = found.snap?.id ?? "";
  const face = wallOf(pieces.value, id);
  if (!face) return null;
  const on = flatten(face, lift(undefined, found.at, found.depth));
  return { wall: id, along_m: on.at[0], up_m: on.at[1], off_m: on.depth };
}

function search(f: DrawFrame, near: number, grid: number, over: string): Search {
  const from = tool.value?.from?.() ?? null;
  const { wall } = grounds.value(f);
  return {
    reach: reachNow(),
    near,
    grid,
    depth: wall ? standoff.value : height.value,
    from: from && flatten(wall, from).at,
    over,
  };
}

export interface Pointed {
  px: Vec2;
  over: string;
  shift: boolean;
  /** No snapping at all. */
  free: boolean;
  touch: boolean;
}

/** The spot that a pointer at a place of the window means. */
export function locate(p: Pointed): Spot | null {
  const raw = sceneAt(look.value, p.px);
  const f = frameAt(frames.value, raw);
  if (!f) return null;
  const k = look.value.perMetre;
  const s = search(f, (p.touch ? nearPixels.touch : nearPixels.mouse) / k, gridFor(k), p.over);
  const at = onPlane(f, raw);
  const found = p.free ? { at, depth: s.depth, snap: null } : find(fieldHere(f), at, s);
  return spotOf(f, found, p.over, p.shift, p.px);
}

/** The spot at a place in the shop, as it is: typed lengths and the cursor's steps end here. near in metres catches what is right there. */
export function spotAt(f: DrawFrame, at: Vec3, near = 0, skip: readonly SnapKind[] = []): Spot {
  const { wall, field } = grounds.value(f);
  const flatAt = flatten(wall, at);
  if (near === 0) return spotOf(f, { ...flatAt, snap: null }, "", false);
  const s = search(f, near, 0, "");
  const kinds = new Set([...s.reach.kinds].filter((k) => k !== "grid" && !skip.includes(k)));
  const found = find(field, flatAt.at, { ...s, depth: flatAt.depth, reach: { ...s.reach, kinds } });
  return spotOf(f, found, "", false);
}

/** The hand comes to a spot: whoever is interested hears of it. */
export function comeTo(s: Spot | null): void {
  spot.value = s;
  if (s) tool.value?.move?.(s);
}

/** After the height has changed the same place of the drawing means another spot; what has a height of its own lets go. */
export function lookAgain(): void {
  const s = spot.value;
  if (!s) return;
  const wall = wallHere(s.frame);
  const on = flatten(wall, s.at);
  const depth = wall ? standoff.value : height.value;
  comeTo(spotAt(s.frame, lift(wall, on.at, depth), 1e-3, ["point", "run"]));
}
