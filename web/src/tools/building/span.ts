import type { Vec2 } from "../space.ts";

/** Where an opening lies on its wall: from the wall's left end to its near side, and from the wall's floor to its sill. */
export interface Span {
  along: number;
  width: number;
  sill: number;
  height: number;
}

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

/** An opening of a width about the middle pointed at; it is kept within the wall as long as it fits there at all. */
export function spanAbout(wall: number, middle: number, typed: Omit<Span, "along">): Span {
  const most = Math.max(0, wall - typed.width);
  return { ...typed, along: mm(Math.min(Math.max(middle - typed.width / 2, 0), most)) };
}

/**
 * An opening drawn from one place of the wall to another: along it in a plan; in an elevation up and down too,
 * where both were pointed at. Windows keep the sill drawn, what one walks through goes down to the floor.
 */
export function spanBetween(
  wall: number,
  a: Vec2,
  b: Vec2,
  typed: Omit<Span, "along">,
  tall: boolean,
  floor: boolean,
): Span {
  const on = (v: number) => Math.min(Math.max(v, 0), wall);
  const [from, to] = [on(Math.min(a[0], b[0])), on(Math.max(a[0], b[0]))];
  const out = { ...typed, along: mm(from), width: mm(to - from) };
  if (!tall) return out;
  const low = floor ? 0 : Math.max(0, Math.min(a[1], b[1]));
  return { ...out, sill: mm(low), height: mm(Math.max(a[1], b[1]) - low) };
}

/** What is left of the wall on either side. */
export const beside = (wall: number, s: Span): Vec2 => [s.along, wall - s.along - s.width];
