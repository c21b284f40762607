import { computed, signal } from "@preact/signals";

/** How the drawing is looked at: enlargement over fit, and the shift in pixels. */
export interface Look {
  zoom: number;
  x: number;
  y: number;
}

export const fitted: Look = { zoom: 1, x: 0, y: 0 };
export const look = signal<Look>(fitted);

/** How many times larger a sheet the drawing is laid out for, in steps so that zooming asks seldom. */
export const closeness = computed(() => (look.value.zoom < 1.7 ? 1 : look.value.zoom < 3.4 ? 2 : 4));

const most = 16;

/** The window that the drawing is looked at through, in pixels; 0 before it has been measured. */
export const pane = signal({ width: 0, height: 0 });

/** Keeps the drawing in the window: it cannot be pushed out of sight. */
function held(l: Look): Look {
  const { width, height } = pane.value;
  if (width === 0) return l;
  return {
    zoom: l.zoom,
    x: Math.min(0, Math.max(l.x, width * (1 - l.zoom))),
    y: Math.min(0, Math.max(l.y, height * (1 - l.zoom))),
  };
}

/** Enlarges by a factor about a place of the window, which stays where it is. */
export function zoomed(now: Look, factor: number, atX: number, atY: number): Look {
  const zoom = Math.min(Math.max(now.zoom * factor, 1), most);
  if (zoom === 1) return fitted;
  const k = zoom / now.zoom;
  return held({ zoom, x: atX - (atX - now.x) * k, y: atY - (atY - now.y) * k });
}

export function moved(now: Look, dx: number, dy: number): Look {
  return now.zoom === 1 ? now : held({ ...now, x: now.x + dx, y: now.y + dy });
}
