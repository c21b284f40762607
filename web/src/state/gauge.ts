// What a person reads off gauges and clocks, understood where the program cannot be asked.

const inKPa: Record<string, number> = { bar: 100, psi: 6.894757, kpa: 1, mpa: 1000 };

/** A pressure off a gauge in kPa, or nothing. */
export function gaugeOf(text: string, system: string): number | null {
  const m = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*([a-z]*)\s*$/i.exec(text);
  const by = inKPa[(m?.[2] || (system === "us" ? "psi" : "bar")).toLowerCase()];
  return m?.[1] && by ? Number(m[1].replace(",", ".")) * by : null;
}

/** A temperature in °C, or nothing. */
export function celsiusOf(text: string, system: string): number | null {
  const m = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*°?\s*([cf]?)\s*$/i.exec(text);
  if (!m?.[1]) return null;
  const x = Number(m[1].replace(",", "."));
  return (m[2] || (system === "us" ? "f" : "c")).toLowerCase() === "f" ? ((x - 32) * 5) / 9 : x;
}

/** A difference of temperature in kelvins, or nothing: "1 °C", "0,5 K", "2 °F". */
export function kelvinOf(text: string, system: string): number | null {
  const m = /^\s*(\d+(?:[.,]\d+)?)\s*°?\s*([cfk]?)\s*$/i.exec(text);
  if (!m?.[1]) return null;
  const x = Number(m[1].replace(",", "."));
  return (m[2] || (system === "us" ? "f" : "k")).toLowerCase() === "f" ? (x * 5) / 9 : x;
}

/** A gauge pressure as people of a system of units write it, kPa given. */
export const gaugeText = (kPa: number, system: string): string =>
  system === "us" ? `${Math.round(kPa / 6.894757)} psi` : `${(kPa / 100).toFixed(2)} bar`;

/** A time in seconds: "48", "48 s", "1:12", "2 min"; or nothing. */
export function secondsOf(text: string): number | null {
  const clock = /^\s*(\d+):([0-5]\d)\s*$/.exec(text);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]);
  const m = /^\s*(\d+(?:[.,]\d+)?)\s*(s|sec|min|h)?\s*$/i.exec(text);
  if (!m?.[1]) return null;
  const by = { min: 60, h: 3600 }[(m[2] ?? "s").toLowerCase()] ?? 1;
  const x = Number(m[1].replace(",", ".")) * by;
  return x > 0 ? x : null;
}

/** Where the receiver swings, kPa gauge. */
export interface Band {
  cutIn: number;
  cutOut: number;
}

/** What is strange about two gauges read at one moment; "" where nothing is. */
export type Strange = "" | "receiver" | "above";

/** Two gauges of a workshop differ by no more, kPa: as the program has it. */
const slack = 40;

export function strange(kPa: number | null, receiver: number | null, band: Band): Strange {
  if (receiver !== null && (receiver > 1.4 * band.cutOut || receiver < 0.25 * band.cutIn)) return "receiver";
  if (kPa !== null && kPa > (receiver ?? 1.4 * band.cutOut) + slack) return "above";
  return "";
}

/** What gauges of workshops show, kPa; a figure far from it was meant in another unit, or read wrong. */
export const usual = { least: 100, most: 1600 };

export const far = (kPa: number): boolean => kPa < usual.least || kPa > usual.most;

/** The same figure in the units in which it would not be strange. */
export function meant(text: string, least: number, most: number): string[] {
  const figure = /^\s*(\d+(?:[.,]\d+)?)/.exec(text)?.[1];
  if (!figure) return [];
  return ["bar", "psi", "kPa"]
    .map((unit) => `${figure} ${unit}`)
    .filter((t) => {
      const kPa = gaugeOf(t, "");
      return kPa !== null && kPa >= least && kPa <= most && t !== text.trim();
    });
}
