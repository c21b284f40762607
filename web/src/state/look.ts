import { signal } from "@preact/signals";

/** How the drawing is looked at: enlargement over fit, and the shift in pixels. */
export interface Look {
  zoom: number;
  x: number;
  y: number;
}

export const fitted: Look = { zoom: 1, x: 0, y: 0 };
export const look = signal<Look>(fitted);

const most = 16;

/** Enlarges by a factor about a place of the window, which stays where it is. */
export function zoomed(now: Look, factor: number, atX: number, atY: number): Look {
  const zoom = Math.min(Math.max(now.zoom * factor, 1), most);
  if (zoom === 1) return fitted;
  const k = zoom / now.zoom;
  return { zoom, x: atX - (atX - now.x) * k, y: atY - (atY - now.y) * k };
}

export function moved(now: Look, dx: number, dy: number): Look {
  return now.zoom === 1 ? now : { ...now, x: now.x + dx, y: now.y + dy };
}
