import type { Spot, Vec2, Vec3, WallPlace } from "./space.ts";

// How a spot is told to the program.

/** In the shop's metres, or on a wall. */
export type Place = { at_m: Vec3 } | WallPlace;

/** Where a line begins or ends: at a point, on a run, or free. */
export type Anchor = { point: string } | { run: string; along_m: number } | { place: Place };

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

/** The spot's place; on a wall where it was meant to keep to that wall. */
export function placeOf(s: Spot): Place {
  if (s.wall)
    return {
      wall: s.wall.wall,
      along_m: mm(s.wall.along_m),
      up_m: mm(s.wall.up_m),
      off_m: mm(s.wall.off_m),
    };
  return { at_m: [mm(s.at[0]), mm(s.at[1]), mm(s.at[2])] };
}

export function anchorOf(s: Spot): Anchor {
  if (s.snap?.kind === "point") return { point: s.snap.id };
  if (s.snap?.kind === "run") return { run: s.snap.id, along_m: mm(s.snap.along_m) };
  return { place: placeOf(s) };
}

/** The spot on the floor plan. */
export const flatOf = (s: Spot): Vec2 => [mm(s.at[0]), mm(s.at[1])];
