import { signal } from "@preact/signals";

/** Things that one does once on the page; a hint for each goes away by itself when it was done. */
export type Hint = "begin" | "choose" | "draw" | "ask" | "back" | "readings";

const key = "dropleg.hints";
const standing = "dropleg.readings";

function kept(name: string): string[] {
  try {
    return JSON.parse(localStorage.getItem(name) ?? "[]") as string[];
  } catch {
    return [];
  }
}

function keep(name: string, rows: readonly string[]): void {
  try {
    localStorage.setItem(name, JSON.stringify(rows));
  } catch {
    // Storage is shut: the hints come again next time.
  }
}

/** What was done already, or waved away. */
export const did = signal<ReadonlySet<string>>(new Set(kept(key)));

export function done(hint: Hint | `readings ${string}`): void {
  if (did.value.has(hint)) return;
  did.value = new Set([...did.value, hint]);
  keep(key, [...did.value]);
}

/** All hints come again. */
export function recall(): void {
  did.value = new Set();
  keep(key, []);
}

/** A job drawn from what stands waits for readings. */
export function expectReadings(job: string): void {
  keep(standing, [...new Set([...kept(standing), job])].slice(-20));
}

export const readingsExpected = (job: string): boolean => kept(standing).includes(job);
