import { signal } from "@preact/signals";
import { get } from "../api/client.ts";
import type { Quantity } from "../api/types.gen.ts";
import { lengthIn } from "../words/length.ts";
import { query } from "./address.ts";
import { units } from "./ask.ts";

/** The units that the job has where the person asks for none. */
export const jobUnits = signal("metric");

/** A length in the person's units, for figures that move with the pointer. */
export const lengthWords = (m: number): string => lengthIn(units.value || jobUnits.value, m);

/** The grid that free places fall on, in metres, so coarse that its steps can be told apart. */
export function gridFor(perMetre: number): number {
  const us = (units.value || jobUnits.value) === "us";
  const steps = us ? [0.0254, 0.0254 / 4, 0.0254 / 16] : [0.05, 0.01, 0.001];
  // Finer when a step has become wide on the screen.
  return steps.find((s, i) => i === steps.length - 1 || s * perMetre < 40) ?? 0.001;
}

/** Asks the program to read what a person typed: "12ft6", "3/4 in", "90 psi". */
export function quantity(kind: string, text: string, signal?: AbortSignal): Promise<Quantity> {
  return get<Quantity>(
    `/api/quantity${query(["kind", kind], ["text", text], ["units", units.value || jobUnits.value])}`,
    signal,
  );
}
