import { computed } from "@preact/signals";
import { rest } from "../state/look.ts";
import { pixelsPerMM } from "../state/paper.ts";
import type { Frame } from "./scene.tsx";

/** How the shapes of the drawing are laid out: the look at rest. */
export const restFrame = computed<Frame>(() => ({ ...rest.value, perMM: pixelsPerMM }));

/** A shift in metres of the scene as a transform among the shapes. */
export function onRest(dx: number, dy: number): string {
  const k = rest.value.perMetre;
  return `translate(${dx * k} ${-dy * k})`;
}
