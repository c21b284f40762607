import { dot, far, minus, plus, times, type Vec2 } from "../space.ts";

/** How a picture lies on the floor: two places of it, in pixels with y downwards, and where they lie in metres. */
export interface Laid {
  marks_px: readonly [Vec2, Vec2];
  at_m: readonly [Vec2, Vec2];
}

const turned = (d: Vec2, cos: number, sin: number): Vec2 => [
  d[0] * cos - d[1] * sin,
  d[0] * sin + d[1] * cos,
];

/** Metres to the pixel and the turn; null where the marks say neither. */
function turnOf(l: Laid): { scale: number; cos: number; sin: number } | null {
  const d = minus(l.marks_px[1], l.marks_px[0]);
  const p: Vec2 = [d[0], -d[1]]; // y is down in the picture, up on the floor
  const m = minus(l.at_m[1], l.at_m[0]);
  const [lp, lm] = [Math.hypot(...p), Math.hypot(...m)];
  if (lp === 0 || lm === 0) return null;
  return { scale: lm / lp, cos: dot(p, m) / (lp * lm), sin: (p[0] * m[1] - p[1] * m[0]) / (lp * lm) };
}

/** Where a place of the picture lies on the floor. */
export function onFloor(l: Laid, px: Vec2): Vec2 {
  const t = turnOf(l);
  if (!t) return l.at_m[0];
  const d = minus(px, l.marks_px[0]);
  return plus(l.at_m[0], times(turned([d[0], -d[1]], t.cos, t.sin), t.scale));
}

/** Which place of the picture lies at a place of the floor: the inverse of onFloor. */
export function inPicture(l: Laid, at: Vec2): Vec2 {
  const t = turnOf(l);
  if (!t) return l.marks_px[0];
  const d = turned(times(minus(at, l.at_m[0]), 1 / t.scale), t.cos, -t.sin);
  return plus(l.marks_px[0], [d[0], -d[1]]);
}

/** A new picture lies upright, so large that it fills what is in sight, in the middle of it. */
export function laidInto(size: Vec2, low: Vec2, high: Vec2): Laid {
  const room = minus(high, low);
  const scale = Math.min(room[0] / size[0], room[1] / size[1]);
  const [w, h] = [size[0] * scale, size[1] * scale];
  const corner: Vec2 = [low[0] + (room[0] - w) / 2, low[1] + (room[1] - h) / 2];
  return {
    marks_px: [
      [0, size[1]],
      [size[0], 0],
    ],
    at_m: [corner, plus(corner, [w, h])],
  };
}

export const shifted = (l: Laid, by: Vec2): Laid => ({
  marks_px: l.marks_px,
  at_m: [plus(l.at_m[0], by), plus(l.at_m[1], by)],
});

/** A quarter of a turn to the right about the picture's middle. */
export function quarterTurned(l: Laid, size: Vec2): Laid {
  const middle = onFloor(l, times(size, 0.5));
  const turn = (p: Vec2): Vec2 => {
    const d = minus(p, middle);
    return plus(middle, [d[1], -d[0]]);
  };
  return { marks_px: l.marks_px, at_m: [turn(l.at_m[0]), turn(l.at_m[1])] };
}

/**
 * Scaled so that two places of the picture lie so far apart. The first stays where it lies; straight lays the
 * line between them along the axis that it is nearest to, for a photo or a scan that lies askew.
 */
export function scaledBy(l: Laid, a: Vec2, b: Vec2, length: number, straight: boolean): Laid {
  const [from, to] = [onFloor(l, a), onFloor(l, b)];
  const d = minus(to, from);
  let way = times(d, 1 / Math.max(far(from, to), 1e-9));
  if (straight) way = Math.abs(way[0]) >= Math.abs(way[1]) ? [Math.sign(way[0]), 0] : [0, Math.sign(way[1])];
  return { marks_px: [a, b], at_m: [from, plus(from, times(way, length))] };
}

/** The matrix of SVG that lays the picture's pixels; to leads from the floor to the window. */
export function matrixOf(l: Laid, to: (p: Vec2) => Vec2): string {
  const o = to(onFloor(l, [0, 0]));
  // A long way off, so that no figures are lost.
  const far = 1000;
  const x = times(minus(to(onFloor(l, [far, 0])), o), 1 / far);
  const y = times(minus(to(onFloor(l, [0, far])), o), 1 / far);
  return `matrix(${[...x, ...y, ...o].join(" ")})`;
}
