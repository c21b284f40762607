import type { JobRun, ScreenPiece } from "../../api/types.gen.ts";
import { kindOf } from "../field.ts";
import type { Vec3 } from "../space.ts";

type Pieces = ReadonlyMap<string, ScreenPiece>;

/** What goes along when things are moved. */
export interface Carried {
  /** All that moves as a whole. */
  ids: readonly string[];
  /** Runs that are drawn longer or shorter: which of their ends moves. */
  stretched: readonly { id: string; line: readonly Vec3[]; from: boolean; to: boolean }[];
}

const movable = new Set(["point", "line", "outlet", "wall", "opening", "obstacle", "room"]);

/** Things that have a place of their own to be moved from. */
export const canMove = (pieces: Pieces, id: string): boolean => movable.has(kindOf(id)) && pieces.has(id);

/** An outlet stands at its point; openings and points stand on their wall; a run moved takes its ends along. */
function followers(pieces: Pieces, ids: ReadonlySet<string>): string[] {
  const out: string[] = [];
  for (const p of pieces.values()) {
    const thing = p.thing as { point?: string; wall?: string; on?: { wall?: string } } & Partial<JobRun>;
    const kind = kindOf(p.id);
    if (kind === "outlet" && thing.point) {
      if (ids.has(thing.point)) out.push(p.id);
      if (ids.has(p.id)) out.push(thing.point);
    }
    if (kind === "opening" && ids.has(thing.wall ?? "")) out.push(p.id);
    if (kind === "point" && ids.has(thing.on?.wall ?? "")) out.push(p.id);
    if (kind === "line" && ids.has(p.id) && thing.from && thing.to)
      out.push(thing.from.point, thing.to.point);
  }
  return out;
}

export function carriedBy(pieces: Pieces, chosen: readonly string[]): Carried {
  const ids = new Set(chosen.filter((id) => canMove(pieces, id)));
  // Twice: a run takes its ends along, and those their outlets.
  for (const id of followers(pieces, ids)) ids.add(id);
  for (const id of followers(pieces, ids)) ids.add(id);
  const stretched: { id: string; line: readonly Vec3[]; from: boolean; to: boolean }[] = [];
  for (const p of pieces.values()) {
    if (kindOf(p.id) !== "line" || !p.line_m || ids.has(p.id)) continue;
    const thing = p.thing as JobRun;
    const [from, to] = [ids.has(thing.from.point), ids.has(thing.to.point)];
    if (from && to) ids.add(p.id);
    else if (from || to) stretched.push({ id: p.id, line: p.line_m, from, to });
  }
  return { ids: [...ids], stretched };
}

/** The way of a run while one of its ends is being moved. */
export function stretch(s: Carried["stretched"][number], by: Vec3): Vec3[] {
  const add = (a: Vec3): Vec3 => [a[0] + by[0], a[1] + by[1], a[2] + by[2]];
  return s.line.map((p, i) => ((s.from && i === 0) || (s.to && i === s.line.length - 1) ? add(p) : p));
}
