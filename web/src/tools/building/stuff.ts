import type { JobObstacle } from "../../api/types.gen.ts";

export type Stuff = JobObstacle["kind"];

/** How an obstacle of a kind usually stands, m above the floor of its room; null is the ceiling, or none usual. */
export interface Usual {
  bottom: number;
  top: number | null;
  /** Hangs under the ceiling by so much. */
  hangs?: number;
  /** Sizes that it usually has; what has none is drawn by its corners. */
  size: readonly [number, number] | null;
}

/** Usual sizes of workshop things: a hint for the hand, changed at will. */
export const usual: Record<Stuff, Usual> = {
  post: { bottom: 0, top: null, size: [0.2, 0.2] },
  beam: { bottom: 0, top: null, hangs: 0.3, size: null },
  bench: { bottom: 0, top: 0.9, size: null },
  lift: { bottom: 0, top: 2, size: null },
  "door-sweep": { bottom: 0, top: 2.1, size: null },
  machine: { bottom: 0, top: 1.5, size: null },
  hull: { bottom: 0, top: 2.5, size: null },
  electrical: { bottom: 0, top: 2, size: null },
  flue: { bottom: 0, top: null, size: [0.25, 0.25] },
  "keep-out": { bottom: 0, top: null, size: null },
};

const without = 3; // m, the ceiling where there is no room

/** Foot and top in the shop, from what was typed (null: nothing) and the room it stands in. */
export function standing(
  kind: Stuff,
  typed: { bottom: number | null; top: number | null },
  room: { floor_m: number; ceiling_m: number } | undefined,
): { bottom_m: number; top_m: number } {
  const u = usual[kind];
  const floor = room?.floor_m ?? 0;
  const ceiling = room?.ceiling_m ?? floor + without;
  const top = typed.top !== null ? floor + typed.top : u.top === null ? ceiling : floor + u.top;
  const bottom = typed.bottom !== null ? floor + typed.bottom : u.hangs ? top - u.hangs : floor + u.bottom;
  const mm = (v: number) => Math.round(v * 1e4) / 1e4;
  return { bottom_m: mm(bottom), top_m: mm(top) };
}
