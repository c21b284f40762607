import { far, type Vec2 } from "../space.ts";

/** Corners set so far, and whether the last one closed the outline. */
export interface Drawn {
  corners: readonly Vec2[];
  closed: boolean;
}

/** Square to the last corner comes from the hand; here the first corner pulls too, so that the last side closes square. */
export function aligned(corners: readonly Vec2[], p: Vec2, near: number): Vec2 {
  const [first] = corners;
  if (!first) return p;
  if (corners.length > 2 && far(first, p) <= near) return first;
  if (corners.length < 2) return p;
  return [
    Math.abs(p[0] - first[0]) <= near ? first[0] : p[0],
    Math.abs(p[1] - first[1]) <= near ? first[1] : p[1],
  ];
}

/** Another corner; on the first one the outline is closed. The same corner twice is one. */
export function withCorner(corners: readonly Vec2[], p: Vec2): Drawn {
  const [first] = corners;
  const last = corners[corners.length - 1];
  if (first && corners.length > 2 && far(first, p) < 1e-6) return { corners, closed: true };
  if (last && far(last, p) < 1e-6) return { corners, closed: false };
  return { corners: [...corners, p], closed: false };
}

/** The outline is meant to be whole; false while it encloses nothing. */
export const closes = (corners: readonly Vec2[]): boolean =>
  corners.length > 2 && Math.abs(areaOf(corners)) > 1e-4;

/** The floor that an outline encloses, m²; negative when it was drawn clockwise. */
export function areaOf(corners: readonly Vec2[]): number {
  let twice = 0;
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length] as Vec2;
    twice += p[0] * q[1] - q[0] * p[1];
  });
  return twice / 2;
}

/** Corners between which the way runs straight on are left out. */
export function simplified(corners: readonly Vec2[]): Vec2[] {
  const n = corners.length;
  return corners.filter((p, i) => {
    const [a, b] = [corners[(i + n - 1) % n] as Vec2, corners[(i + 1) % n] as Vec2];
    const cross = (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0]);
    return Math.abs(cross) > 1e-6 * Math.max(1, far(a, p) * far(p, b));
  });
}
