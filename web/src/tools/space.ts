import type { DrawFrame } from "../api/types.gen.ts";
import type { Snap } from "./snap.ts";

export type Vec2 = readonly [number, number];
export type Vec3 = readonly [number, number, number];

/** A place on a wall as the program takes it: {"wall", "along_m", "up_m", "off_m"}. */
export interface WallPlace {
  wall: string;
  along_m: number;
  up_m: number;
  off_m: number;
}

/** Where the pointer or the keyboard's cursor is, snapped, in every measure that a tool may want. */
export interface Spot {
  /** Pixels of the drawing's window, of the spot and of the pointer that meant it. */
  px: Vec2;
  raw: Vec2;
  /** Metres of the scene. */
  scene: Vec2;
  /** Metres of the shop. */
  at: Vec3;
  /** The place on the wall: in an elevation always, in the plan where it snapped to the wall's face. */
  wall: WallPlace | null;
  frame: DrawFrame;
  snap: Snap | null;
  /** The thing that lies there; "" for none. */
  over: string;
  shift: boolean;
}

/** A wall as a frame of its own: along it, up it, off its inner face. */
export interface WallFrame {
  from: Vec2;
  to: Vec2;
  floor: number;
}

export const plus = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];
export const minus = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const times = (a: Vec2, k: number): Vec2 => [a[0] * k, a[1] * k];
export const dot = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
export const far = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const far3 = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

export const wallLength = (w: WallFrame): number => far(w.from, w.to);

/** The direction along a wall; x where it has no length. */
function axis(w: WallFrame): Vec2 {
  const l = wallLength(w);
  return l > 0 ? times(minus(w.to, w.from), 1 / l) : [1, 0];
}

/** The place in the shop that is along, up and off in metres on the wall; the room lies on the right of its way. */
export function outOf(w: WallFrame, along: number, up: number, off: number): Vec3 {
  const a = axis(w);
  return [w.from[0] + a[0] * along + a[1] * off, w.from[1] + a[1] * along - a[0] * off, w.floor + up];
}

/** Where a place of the shop lies on the wall: along, up, off. The inverse of outOf. */
export function into(w: WallFrame, at: Vec3): Vec3 {
  const a = axis(w);
  const d = minus([at[0], at[1]], w.from);
  return [dot(d, a), at[2] - w.floor, dot(d, [a[1], -a[0]])];
}

/** A point of the scene on the plane of its frame: x and y in a plan, along and up on a wall. */
export function onPlane(f: DrawFrame, p: Vec2): Vec2 {
  const d = minus(p, f.origin_m);
  return f.kind === "wall" && f.flip ? [-d[0], d[1]] : d;
}

/** The inverse of onPlane. */
export function onScene(f: DrawFrame, p: Vec2): Vec2 {
  return plus(f.origin_m, f.kind === "wall" && f.flip ? [-p[0], p[1]] : p);
}

/** A place on the plane as one in the shop; depth is the height in a plan and the distance off the face on a wall. */
export function lift(wall: WallFrame | undefined, p: Vec2, depth: number): Vec3 {
  return wall ? outOf(wall, p[0], p[1], depth) : [p[0], p[1], depth];
}

/** The inverse of lift: where on the plane, and how deep. */
export function flatten(wall: WallFrame | undefined, at: Vec3): { at: Vec2; depth: number } {
  if (!wall) return { at: [at[0], at[1]], depth: at[2] };
  const [along, up, off] = into(wall, at);
  return { at: [along, up], depth: off };
}

/** The frame that a point of the scene belongs to: the one it lies in, else the nearest. */
export function frameAt(frames: readonly DrawFrame[], p: Vec2): DrawFrame | null {
  let best: DrawFrame | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const f of frames) {
    if (f.kind !== "plan" && f.kind !== "wall") continue;
    const dx = Math.max(f.min_m[0] - p[0], 0, p[0] - f.max_m[0]);
    const dy = Math.max(f.min_m[1] - p[1], 0, p[1] - f.max_m[1]);
    const away = Math.hypot(dx, dy);
    if (away < least) {
      best = f;
      least = away;
    }
  }
  return best;
}
