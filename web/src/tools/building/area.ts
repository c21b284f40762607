import { units } from "../../state/ask.ts";
import { jobUnits } from "../../state/unit.ts";

const foot = 0.3048;

/** A floor's area in the person's units. */
export function areaWords(m2: number): string {
  const us = (units.value || jobUnits.value) === "us";
  return us ? `${Math.round(m2 / foot ** 2)} sq ft` : `${m2.toFixed(1)} m²`;
}
