import type { Anchor, Place } from "../place.ts";
import { far3, into, type Spot, type Vec3, type WallFrame, type WallPlace } from "../space.ts";

// The way of a line while it is being walked, without anything of the page.

/** A place on the way: on a thing that is there, or free. */
export interface Stand {
  at: Vec3;
  wall: WallPlace | null;
  /** The point or the run that it is at; null for a free place. */
  held: { point: string } | { run: string; along_m: number } | null;
}

/** Where the line begins, and every corner since; the last of them is where it has got to. */
export interface Course {
  from: Stand;
  via: readonly Stand[];
}

/** Where a wall lies, for places that keep to it. */
export type Walls = (id: string) => WallFrame | undefined;

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

export function standOf(s: Spot): Stand {
  const held =
    s.snap?.kind === "point"
      ? { point: s.snap.id }
      : s.snap?.kind === "run"
        ? { run: s.snap.id, along_m: mm(s.snap.along_m) }
        : null;
  return { at: s.at, wall: s.wall, held };
}

export const begin = (at: Stand): Course => ({ from: at, via: [] });

export const last = (c: Course): Stand => c.via[c.via.length - 1] ?? c.from;

/** A free place beside another one, on the same wall if that is on one. */
export function beside(s: Stand, at: Vec3, walls: Walls): Stand {
  const frame = s.wall && walls(s.wall.wall);
  if (!s.wall || !frame) return { at, wall: null, held: null };
  const [along_m, up_m, off_m] = into(frame, at);
  return { at, wall: { wall: s.wall.wall, along_m, up_m, off_m }, held: null };
}

const tiny = 0.02; // m: no leg is shorter
const lean = 0.02; // of its length: so much a line may fall without a corner

/**
 * The corners up to a place. A place at another height (on a wall: at another depth) is not cut across to: to a
 * free place the line first rises and then goes over; to a thing that is there it goes over first and comes down on it.
 * axis is the direction of the working height.
 */
export function leadTo(c: Course, to: Stand, axis: Vec3, walls: Walls): Stand[] {
  const from = last(c);
  const d: Vec3 = [to.at[0] - from.at[0], to.at[1] - from.at[1], to.at[2] - from.at[2]];
  const deep = d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
  const flat = Math.hypot(d[0] - axis[0] * deep, d[1] - axis[1] * deep, d[2] - axis[2] * deep);
  if (Math.abs(deep) <= Math.max(tiny, lean * flat) || flat <= tiny) return [to];
  const [base, by] = to.held ? [to.at, -deep] : [from.at, deep];
  const knee: Vec3 = [base[0] + axis[0] * by, base[1] + axis[1] * by, base[2] + axis[2] * by];
  return [beside(to.held ? from : to.wall ? to : from, knee, walls), to];
}

/** Where two walls meet, as far off each as the line keeps: it is led into the corner and not across it. */
export function cornerTo(c: Course, to: Stand, walls: Walls): Stand | null {
  const from = last(c);
  const [a, b] = [from.wall && walls(from.wall.wall), to.wall && walls(to.wall.wall)];
  if (!a || !b || from.wall?.wall === to.wall?.wall) return null;
  const u = [a.to[0] - a.from[0], a.to[1] - a.from[1]] as const;
  const v = [b.to[0] - b.from[0], b.to[1] - b.from[1]] as const;
  const area = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(area) < 0.05 * Math.hypot(...u) * Math.hypot(...v)) return null;
  const d = [to.at[0] - from.at[0], to.at[1] - from.at[1]] as const;
  const t = (d[0] * v[1] - d[1] * v[0]) / area;
  const at: Vec3 = [from.at[0] + u[0] * t, from.at[1] + u[1] * t, from.at[2]];
  if (far3(at, from.at) < tiny || Math.hypot(at[0] - to.at[0], at[1] - to.at[1]) < tiny) return null;
  return beside(from, at, walls);
}

/** A pipe does not turn back on itself: a leg back along the last one shortens it. */
function append(c: Course, to: Stand): Course {
  const [before, corner] = [c.via[c.via.length - 2] ?? c.from, c.via[c.via.length - 1]];
  if (!corner || turn(before.at, corner.at, to.at) < 180 - straight) return { ...c, via: [...c.via, to] };
  const rest = c.via.slice(0, -1);
  return { ...c, via: far3(before.at, to.at) < tiny && !to.held ? rest : [...rest, to] };
}

/** Goes on to a place; one that it stands at already changes nothing. */
export function goTo(c: Course, to: Stand, axis: Vec3, walls: Walls): Course {
  if (far3(last(c).at, to.at) < tiny) return c;
  return leadTo(c, to, axis, walls).reduce(append, c);
}

/** Straight up or down to a height. */
export function riseTo(c: Course, z: number, walls: Walls): Course {
  const from = last(c);
  if (Math.abs(from.at[2] - z) < tiny) return c;
  return append(c, beside(from, [from.at[0], from.at[1], z], walls));
}

/** The last corner is taken back; null where only the beginning was left. */
export function takeBack(c: Course): Course | null {
  return c.via.length === 0 ? null : { ...c, via: c.via.slice(0, -1) };
}

export const places = (c: Course): Vec3[] => [c.from.at, ...c.via.map((s) => s.at)];

export const lengthOf = (at: readonly Vec3[]): number =>
  at.reduce((sum, p, i) => (i === 0 ? 0 : sum + far3(at[i - 1] as Vec3, p)), 0);

/** How much the way turns at b, degrees. */
export function turn(a: Vec3, b: Vec3, c: Vec3): number {
  const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
  const v = [c[0] - b[0], c[1] - b[1], c[2] - b[2]] as const;
  const [lu, lv] = [Math.hypot(...u), Math.hypot(...v)];
  if (lu === 0 || lv === 0) return 0;
  const cos = (u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) / (lu * lv);
  return (Math.acos(Math.max(-1, Math.min(1, cos))) * 180) / Math.PI;
}

const straight = 3; // degrees: that is no corner

/** The turns at every corner between the ends. */
export function turns(at: readonly Vec3[]): { at: Vec3; turn: number }[] {
  return at
    .slice(1, -1)
    .map((p, i) => ({ at: p, turn: turn(at[i] as Vec3, p, at[i + 2] as Vec3) }))
    .filter((t) => t.turn > straight);
}

export function placeOfStand(s: Stand): Place {
  if (!s.wall) return { at_m: [mm(s.at[0]), mm(s.at[1]), mm(s.at[2])] };
  const { wall, along_m, up_m, off_m } = s.wall;
  return { wall, along_m: mm(along_m), up_m: mm(up_m), off_m: mm(off_m) };
}

export const anchorOfStand = (s: Stand): Anchor => s.held ?? { place: placeOfStand(s) };

/** What a line is of, as it is sent. Fields that are "" are left to the program. */
export interface Made {
  stock: string;
  size: string;
  role: string;
  state: string;
  corners: string;
}

export const given = (of: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(of).filter(([, v]) => v !== ""));

/** The gesture; null while the line has no end yet. Places on the way that are no corners are left out. */
export function lineGesture(c: Course, made: Made, flexible = false): object | null {
  const end = c.via[c.via.length - 1];
  if (!end) return null;
  const at = places(c);
  const via = c.via
    .slice(0, -1)
    .filter((_, i) => turn(at[i] as Vec3, at[i + 1] as Vec3, at[i + 2] as Vec3) > straight);
  const { state, ...rest } = made;
  return {
    do: "line",
    from: anchorOfStand(c.from),
    ...(via.length > 0 ? { via: via.map(placeOfStand) } : {}),
    to: anchorOfStand(end),
    ...given({ ...rest, state: state === "planned" ? "" : state }),
    ...(flexible ? { flexible } : {}),
  };
}
