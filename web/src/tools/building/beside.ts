import type { Vec2 } from "../space.ts";

export type Way = "right" | "left" | "above" | "below";

/**
 * The lower left corner of a room of a size beside another: flush at the left or the lower end. Its side lies on
 * the other's inner face; the program sets it behind the wall between them.
 */
export function besideCorner(outline: readonly Vec2[], way: Way, size: Vec2): Vec2 {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  switch (way) {
    case "right":
      return [right, low];
    case "left":
      return [left - size[0], low];
    case "above":
      return [left, high];
    case "below":
      return [left, low - size[1]];
  }
}
