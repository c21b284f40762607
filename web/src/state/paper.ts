import { signal } from "@preact/signals";

/** Pixels to one millimetre of paper: text of 3.3 mm then stands 13 px high. A large screen is looked at from farther away. */
export const pixelsPerMM = matchMedia("(min-width: 2000px)").matches ? 5 : 4;

/** The sheet that the drawing is laid out for, in whole steps so that a window dragged wider asks seldom. */
export const paper = signal({ w: 0, h: 0 });

const step = 10;
const patience = 150; // ms that a size must last before the sheet is laid out anew

let waiting: ReturnType<typeof setTimeout> | undefined;

/** Takes the size of the drawing's window; the first counts at once. */
export function measured(width: number, height: number): void {
  const w = Math.floor(width / pixelsPerMM / step) * step;
  const h = Math.floor(height / pixelsPerMM / step) * step;
  clearTimeout(waiting);
  if (w <= 0 || h <= 0 || (w === paper.value.w && h === paper.value.h)) return;
  const take = () => {
    paper.value = { w, h };
  };
  if (paper.value.w === 0) take();
  else waiting = setTimeout(take, patience);
}
