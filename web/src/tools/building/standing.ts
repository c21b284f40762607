import type { JobRoom, JobWall } from "../../api/types.gen.ts";
import { far, type Vec2 } from "../space.ts";

// What stands where on the floor.

/** Whether a place lies in an outline. */
export function within(outline: readonly Vec2[], p: Vec2): boolean {
  let inside = false;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] as Vec2;
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < a[0] + ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]))
      inside = !inside;
  });
  return inside;
}

const near = 0.02; // m, as the program counts two edges as one

/** How far a place lies off the side from a to b. */
function offSide(p: Vec2, a: Vec2, b: Vec2): number {
  const l = far(a, b) || 1;
  const t = Math.min(
    1,
    Math.max(0, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / l ** 2),
  );
  return far(p, [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
}

/** The walls that stand on a room's outline and reach from its floor to its ceiling. */
export function wallsOf(room: JobRoom, walls: readonly JobWall[]): JobWall[] {
  const corners: Vec2[] = room.outline_m;
  return walls.filter((w) => {
    const tall =
      Math.abs((w.floor_m ?? 0) - room.floor_m) < near &&
      Math.abs((w.floor_m ?? 0) + w.height_m - room.ceiling_m) < near;
    if (!tall) return false;
    return corners.some((a, i) => {
      const b = corners[(i + 1) % corners.length] as Vec2;
      return offSide(w.from_m, a, b) < near && offSide(w.to_m, a, b) < near;
    });
  });
}
