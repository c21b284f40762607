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

/** A corner that a place on a wall is counted from. */
export interface Corner {
  at: Vec3;
  /** The way along the wall to it, by compass: "north-west". */
  toward: string;
}

/** By compass, where north is up on the drawing. */
function compass(dx: number, dy: number): string {
  const flat = Math.max(Math.abs(dx), Math.abs(dy)) * 0.38; // within 21 degrees of an axis it is that axis
  const [ns, ew] = [dy > 0 ? "north" : "south", dx > 0 ? "east" : "west"];
  return [Math.abs(dy) > flat ? ns : "", Math.abs(dx) > flat ? ew : ""].filter((w) => w !== "").join("-");
}

/** The nearer end of a wall, or the other one, at the height and the distance off it that a place has. */
export function cornerBy(wall: WallFrame | undefined, at: Vec3, other = false): Corner | null {
  if (!wall) return null;
  const [along, up, away] = into(wall, at);
  const long = wallLength(wall);
  const far = along > long / 2 !== other;
  const [from, to] = [outOf(wall, 0, up, away), outOf(wall, long, up, away)];
  const [end, start] = far ? [to, from] : [from, to];
  return { at: end, toward: compass(end[0] - start[0], end[1] - start[1]) };
}
