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

/** What a number without a unit is meant in. */
const usual: Record<string, { us: string; metric: string }> = {
  length: { us: "ft", metric: "m" },
  volume: { us: "gal", metric: "L" },
  "gauge pressure": { us: "psi", metric: "bar" },
  "flow of free air": { us: "cfm", metric: "L/min" },
  power: { us: "hp", metric: "kW" },
  temperature: { us: "°F", metric: "°C" },
};

/** A number without a unit gets that of the figure which stands in its field, else the usual one. */
export function withUnit(kind: string, text: string, system: string, like = ""): string {
  if (!/^\s*[+-]?\d+([.,]\d+)?\s*$/.test(text)) return text;
  const shown = /^[+-]?[\d.,]+\s*([^\d\s()]+)$/.exec(like.trim())?.[1] ?? "";
  // Nobody writes parts of a millimetre: "0.95" typed over "900 mm" is metres.
  const fits = shown !== "mm" || !/[.,]/.test(text);
  const unit = (fits && shown) || (usual[kind]?.[system === "us" ? "us" : "metric"] ?? "");
  return `${text.trim()} ${unit}`.trim();
}

/**
 * Asks the program to read what a person typed: "12ft6", "3/4 in", "90 psi"; like is what stands in the field,
 * whose unit a bare number is meant in.
 */
export function quantity(kind: string, text: string, signal?: AbortSignal, like = ""): Promise<Quantity> {
  const system = units.value || jobUnits.value;
  return get<Quantity>(
    `/api/quantity${query(["kind", kind], ["text", withUnit(kind, text, system, like)], ["units", system])}`,
    signal,
  );
}
