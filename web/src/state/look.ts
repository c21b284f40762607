import { computed, signal } from "@preact/signals";

/** How the drawing is looked at: pixels to the metre, and the metres at the left and top edge of the window. */
export interface Look {
  perMetre: number;
  left: number;
  top: number;
}

/** The rectangle in metres that the drawing fills. */
export interface Bounds {
  min: readonly [number, number];
  max: readonly [number, number];
}

export const look = signal<Look>({ perMetre: 1, left: 0, top: 0 });

/** Everything is in sight, and stays so when the window or the drawing changes. */
export const fitting = signal(true);

/** How the shapes are laid out; between this and look lies one transform, until the look has come to rest. */
export const rest = signal<Look>(look.value);

/** The window that the drawing is looked at through, in pixels; 0 before it has been measured. */
export const pane = signal({ width: 0, height: 0 });

/** What is drawn, and how it is looked at when everything is in sight. */
export const bounds = signal<Bounds>({ min: [0, 0], max: [1, 1] });
export const whole = signal<Look>(look.value);

/** How many times larger a sheet the drawing is laid out for, in steps so that zooming asks seldom. */
export const closeness = computed(() => {
  const times = rest.value.perMetre / whole.value.perMetre;
  return times < 1.7 ? 1 : times < 3.4 ? 2 : 4;
});

/** Closest: four pixels to the millimetre of the shop. */
const most = 4000;
/** Farthest: the whole drawing at this share of the window. */
const least = 0.5;

export interface Size {
  width: number;
  height: number;
}

/** Fits bounds into a window, with a margin in pixels. */
export function fitted(b: Bounds, size: Size, margin: number): Look {
  const w = Math.max(b.max[0] - b.min[0], 1e-6);
  const h = Math.max(b.max[1] - b.min[1], 1e-6);
  const room = 2 * margin;
  const perMetre = Math.max(Math.min((size.width - room) / w, (size.height - room) / h), 1e-3);
  return {
    perMetre,
    left: b.min[0] - (size.width / perMetre - w) / 2,
    top: b.max[1] + (size.height / perMetre - h) / 2,
  };
}

/** The drawing cannot be pushed out of sight: its middle third keeps touching the window. */
function held(l: Look): Look {
  const { width, height } = pane.value;
  if (width === 0) return l;
  const { min, max } = bounds.value;
  const [w, h] = [width / l.perMetre, height / l.perMetre];
  const clamp = (v: number, low: number, high: number) => Math.min(Math.max(v, low), Math.max(low, high));
  return {
    perMetre: l.perMetre,
    left: clamp(l.left, min[0] - w * 0.75, max[0] - w * 0.25),
    top: clamp(l.top, min[1] + h * 0.25, max[1] + h * 0.75),
  };
}

/** Enlarges by a factor about a place of the window, which stays where it is. */
export function zoomed(now: Look, factor: number, atX: number, atY: number): Look {
  const low = whole.value.perMetre * least;
  const perMetre = Math.min(Math.max(now.perMetre * factor, low), Math.max(most, low));
  return held({
    perMetre,
    left: now.left + atX / now.perMetre - atX / perMetre,
    top: now.top - atY / now.perMetre + atY / perMetre,
  });
}

export function moved(now: Look, dx: number, dy: number): Look {
  return held({ ...now, left: now.left - dx / now.perMetre, top: now.top + dy / now.perMetre });
}

/** What leads from the shapes as they are laid out to how they are looked at. */
export function transformOf(laid: Look, now: Look): string {
  const k = now.perMetre / laid.perMetre;
  const x = (laid.left - now.left) * now.perMetre;
  const y = (now.top - laid.top) * now.perMetre;
  return `translate(${x} ${y}) scale(${k})`;
}

const calm = 120; // ms without zooming after which the shapes are laid out anew

let waiting: ReturnType<typeof setTimeout> | undefined;

function settle(): void {
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    rest.value = look.value;
  }, calm);
}

/** Looks at the drawing anew; the shapes follow when it has come to rest. Moving alone needs no new shapes. */
export function lookAt(to: Look): void {
  fitting.value = false;
  look.value = to;
  if (to.perMetre !== rest.value.perMetre) settle();
}

export function zoomBy(factor: number, atX = pane.value.width / 2, atY = pane.value.height / 2): void {
  lookAt(zoomed(look.value, factor, atX, atY));
}

export function moveBy(dx: number, dy: number): void {
  lookAt(moved(look.value, dx, dy));
}

const inside = (b: Bounds, l: Look, size: Size): boolean =>
  b.min[0] >= l.left &&
  b.max[0] <= l.left + size.width / l.perMetre &&
  b.max[1] <= l.top &&
  b.min[1] >= l.top - size.height / l.perMetre;

/** Everything in sight, at once. */
export function fit(): void {
  clearTimeout(waiting);
  fitting.value = true;
  look.value = whole.value;
  rest.value = whole.value;
}

/**
 * Takes the size of the window and what is drawn. A drawing that grows under the hand must not jump:
 * anew says that another view came, else one that is in sight stays where it is.
 */
export function measure(b: Bounds, size: Size, margin: number, anew: boolean): void {
  const resized = size.width !== pane.value.width || size.height !== pane.value.height;
  bounds.value = b;
  if (resized) pane.value = size;
  if (size.width === 0) return;
  whole.value = fitted(b, size, margin);
  if (anew || (fitting.value && (resized || !inside(b, look.value, size)))) fit();
}
