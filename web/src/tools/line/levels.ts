import type { JobPoint, JobRoom, ScreenPiece } from "../../api/types.gen.ts";
import { kindOf } from "../field.ts";
import type { Vec2, Vec3 } from "../space.ts";

type Pieces = ReadonlyMap<string, ScreenPiece>;

/** Bench height over the floor, m. */
export const bench = 1.1;

/** Whether a place lies in an outline. */
export function inside(outline: readonly Vec2[], p: Vec2): boolean {
  let in_ = false;
  for (let i = 0, k = outline.length - 1; i < outline.length; k = i++) {
    const [a, b] = [outline[i] as Vec2, outline[k] as Vec2];
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0])
      in_ = !in_;
  }
  return in_;
}

/** The room that a place lies in; outside every room, none. */
export function roomAt(pieces: Pieces, at: Vec3): JobRoom | undefined {
  for (const p of pieces.values()) {
    if (kindOf(p.id) !== "room") continue;
    const room = p.thing as JobRoom;
    if (inside(room.outline_m, [at[0], at[1]])) return room;
  }
  return undefined;
}

export const floorAt = (pieces: Pieces, at: Vec3): number => roomAt(pieces, at)?.floor_m ?? 0;

export const ceilingAt = (pieces: Pieces, at: Vec3): number | undefined => roomAt(pieces, at)?.ceiling_m;

/** The kind of part at a point; "" where there is no such point. */
export const partAt = (pieces: Pieces, point: string): string =>
  (pieces.get(point)?.thing as JobPoint | undefined)?.part.kind ?? "";
