// The room of the first question as an outline, and places on its walls as the answers name them.

export type Flat = readonly [number, number];
export type Corner = "ne" | "nw" | "sw" | "se";

/** A side of the room: the wall's name in the answers, and its face from the left end to the right as seen from inside. */
export interface Side {
  wall: string;
  left: Flat;
  right: Flat;
  long: number;
}

/** A place on a wall, counted from its left end as seen from inside. */
export interface OnWall {
  wall: string;
  along: number;
}

export const oblong = (w: number, d: number): Flat[] => [
  [0, 0],
  [w, 0],
  [w, d],
  [0, d],
];

/** An oblong without one of its corners, counterclockwise. null: the corner is not smaller than the room. */
export function ell(w: number, d: number, corner: Corner, cw: number, cd: number): Flat[] | null {
  if (!(cw > 0 && cd > 0 && cw < w && cd < d)) return null;
  const x = corner.endsWith("e") ? w - cw : cw;
  const y = corner.startsWith("n") ? d - cd : cd;
  const cut: Record<Corner, Flat[]> = {
    ne: [
      [0, 0],
      [w, 0],
      [w, y],
      [x, y],
      [x, d],
      [0, d],
    ],
    nw: [
      [0, 0],
      [w, 0],
      [w, d],
      [x, d],
      [x, y],
      [0, y],
    ],
    sw: [
      [x, 0],
      [w, 0],
      [w, d],
      [0, d],
      [0, y],
      [x, y],
    ],
    se: [
      [0, 0],
      [x, 0],
      [x, y],
      [w, y],
      [w, d],
      [0, d],
    ],
  };
  return cut[corner];
}

/** The compass word of the way that a side of a counterclockwise outline looks. */
function looks(a: Flat, b: Flat): string {
  const [x, y] = [b[1] - a[1], a[0] - b[0]];
  if (Math.abs(x) > Math.abs(y)) return x > 0 ? "east" : "west";
  return y > 0 ? "north" : "south";
}

/** The sides in the order of the outline; of several that look one way the second is south-2. */
export function sides(outline: readonly Flat[]): Side[] {
  const seen = new Map<string, number>();
  return outline.map((a, i) => {
    const b = outline[(i + 1) % outline.length] as Flat;
    const way = looks(a, b);
    const n = (seen.get(way) ?? 0) + 1;
    seen.set(way, n);
    return {
      wall: n === 1 ? way : `${way}-${n}`,
      left: b,
      right: a,
      long: Math.hypot(b[0] - a[0], b[1] - a[1]),
    };
  });
}

/** Where a place on a wall lies, off metres into the room. */
export function placeOn(side: Side, along: number, off = 0): Flat {
  const ux = (side.right[0] - side.left[0]) / side.long;
  const uy = (side.right[1] - side.left[1]) / side.long;
  return [side.left[0] + ux * along + uy * off, side.left[1] + uy * along - ux * off];
}

/** The place on a wall nearest to a point, to whole steps of a grid. */
export function nearest(all: readonly Side[], at: Flat, grid = 0.05): (OnWall & { off: number }) | null {
  let best: (OnWall & { off: number }) | null = null;
  for (const s of all) {
    const ux = (s.right[0] - s.left[0]) / s.long;
    const uy = (s.right[1] - s.left[1]) / s.long;
    const free = (at[0] - s.left[0]) * ux + (at[1] - s.left[1]) * uy;
    const along = Math.min(Math.max(free, 0), s.long);
    const [x, y] = placeOn(s, along);
    const off = Math.hypot(at[0] - x, at[1] - y);
    if (!best || off < best.off)
      best = { wall: s.wall, along: Math.min(Math.round(along / grid) * grid, s.long), off };
  }
  return best;
}

/** Places evenly round the walls, n of them: a sketch, the plan keeps clear of doors and corners. */
export function evenly(all: readonly Side[], n: number): Flat[] {
  const total = all.reduce((sum, s) => sum + s.long, 0);
  const out: Flat[] = [];
  for (let k = 0; k < n; k++) {
    let t = ((k + 0.5) * total) / n;
    for (const s of all) {
      if (t <= s.long) {
        out.push(placeOn(s, s.long - t));
        break;
      }
      t -= s.long;
    }
  }
  return out;
}
