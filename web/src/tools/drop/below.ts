import type { JobWall, ScreenPiece } from "../../api/types.gen.ts";
import { kindOf, wallOf } from "../field.ts";
import type { Place } from "../place.ts";
import { into, outOf, type Vec3, type WallFrame, wallLength } from "../space.ts";

type Pieces = ReadonlyMap<string, ScreenPiece>;

/** A line farther off every wall than this drops straight below itself, m. */
const reach = 0.9;

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

/** Where the outlet of a drop leg goes. */
export interface Hung {
  at: Vec3;
  place: Place;
  /** The wall that it is fixed to; "" for none. */
  wall: string;
}

/** Below a place on a line: on the nearest wall's face at a height, else straight below. */
export function below(pieces: Pieces, from: Vec3, z: number, off: number): Hung {
  let best: { wall: string; along: number; away: number } | null = null;
  for (const p of pieces.values()) {
    const frame = kindOf(p.id) === "wall" ? wallOf(pieces, p.id) : undefined;
    if (!frame) continue;
    const [along, , away] = into(frame, from);
    const high = frame.floor + (p.thing as JobWall).height_m;
    const beside = along < 0 || along > wallLength(frame) || away < 0 || away > reach;
    if (beside || z < frame.floor || z > high) continue;
    if (!best || away < best.away) best = { wall: p.id, along, away };
  }
  const frame = best && wallOf(pieces, best.wall);
  if (!best || !frame) {
    const at: Vec3 = [mm(from[0]), mm(from[1]), mm(z)];
    return { at, place: { at_m: at }, wall: "" };
  }
  const up = z - frame.floor;
  return {
    at: outOf(frame, best.along, up, off),
    place: { wall: best.wall, along_m: mm(best.along), up_m: mm(up), off_m: mm(off) },
    wall: best.wall,
  };
}

/** The way of the leg as the program will lead it, for the ghost: up and over from the top, else over and down. */
export function legWay(from: Vec3, to: Vec3, takeOff: string): Vec3[] {
  const level = from[2] + (takeOff === "top" ? 0.1 : takeOff === "bottom" ? -0.1 : 0);
  return [from, [from[0], from[1], level], [to[0], to[1], level], to];
}

/** The nearer end of a wall, at the height and the distance off it that a place has. */
export function cornerBy(wall: WallFrame | undefined, at: Vec3): Vec3 | null {
  if (!wall) return null;
  const [along, up, away] = into(wall, at);
  const long = wallLength(wall);
  return outOf(wall, along > long / 2 ? long : 0, up, away);
}
