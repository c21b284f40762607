import { minus, plus, type Vec2 } from "../space.ts";

/** A rectangle begun: its first corner, and the far end of a side where that has been set by itself. */
export interface Rect {
  a: Vec2;
  b: Vec2 | null;
}

export type Set = { rect: Rect; whole: null } | { rect: null; whole: readonly [Vec2, Vec2] };

/** Nearer than this a side counts as none, m. */
const none = 1e-3;

/** The corner across that a place means when one side has been set: square to it, along it being no depth. */
function across(a: Vec2, b: Vec2, p: Vec2): Vec2 {
  const side = minus(b, a);
  const d = minus(p, b);
  const k = Math.abs(side[0]) > Math.abs(side[1]) ? 1 : 0;
  // A length typed without pointing anywhere leads on along the side: it is meant as the depth, up or to the right.
  const by = Math.abs(d[k]) >= none ? d[k] : Math.abs(d[1 - k] ?? 0);
  return k === 1 ? [b[0], b[1] + by] : [b[0] + by, b[1]];
}

/** The next place: the first corner, the corner across, or one side and then the depth. */
export function setCorner(now: Rect | null, p: Vec2): Set {
  if (!now) return { rect: { a: p, b: null }, whole: null };
  if (now.b) {
    const c = across(now.a, now.b, p);
    const has = Math.abs(c[0] - now.a[0]) >= none && Math.abs(c[1] - now.a[1]) >= none;
    return has ? { rect: null, whole: [now.a, c] } : { rect: now, whole: null };
  }
  const d = minus(p, now.a).map(Math.abs);
  const flat = d.map((v) => v < none);
  if (flat[0] && flat[1]) return { rect: now, whole: null };
  if (flat[0] || flat[1])
    return { rect: { a: now.a, b: flat[0] ? [now.a[0], p[1]] : [p[0], now.a[1]] }, whole: null };
  return { rect: null, whole: [now.a, p] };
}

/** The last place is taken back. */
export const backCorner = (now: Rect | null): Rect | null => (now?.b ? { a: now.a, b: null } : null);

/** The corners as they would be with the pointer at p. */
export function cornersOf(now: Rect, p: Vec2): Vec2[] {
  const c = now.b ? across(now.a, now.b, p) : p;
  return boxOf(now.a, c);
}

/** The four corners between two across, counterclockwise from the lower left one. */
export function boxOf(a: Vec2, c: Vec2): Vec2[] {
  const low: Vec2 = [Math.min(a[0], c[0]), Math.min(a[1], c[1])];
  const high: Vec2 = [Math.max(a[0], c[0]), Math.max(a[1], c[1])];
  return [low, [high[0], low[1]], high, [low[0], high[1]]];
}

/** Lower left corner and size. */
export function cornerAndSize(a: Vec2, c: Vec2): { corner: Vec2; size: Vec2 } {
  const [low, , high] = boxOf(a, c) as [Vec2, Vec2, Vec2];
  return { corner: low, size: minus(high, low) };
}

/** Corners round a middle: a rectangle, or a ring of sixteen. */
export function roundOf(middle: Vec2, width: number): Vec2[] {
  const n = 16;
  // Of the same area as the circle, so that nothing is lost or gained on the floor.
  const r = (width / 2) * Math.sqrt((2 * Math.PI) / (n * Math.sin((2 * Math.PI) / n)));
  return Array.from({ length: n }, (_, i) => {
    const t = ((i + 0.5) * 2 * Math.PI) / n;
    return plus(middle, [r * Math.cos(t), r * Math.sin(t)]);
  });
}
