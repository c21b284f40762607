import { computed, signal } from "@preact/signals";
import { jobId } from "./address.ts";

/** What is ticked off in this browser: articles that are bought, pieces that are cut. Each job has its own. */
const key = `dropleg.ticks.${jobId}`;

function kept(): string[] {
  try {
    const list: unknown = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(list) ? list.filter((x): x is string => typeof x === "string") : [];
  } catch {
    return [];
  }
}

const all = signal<readonly string[]>(kept());

export const ticked = computed<ReadonlySet<string>>(() => new Set(all.value));

/** Ticks a thing off, or takes the tick away. */
export function tick(id: string): void {
  all.value = all.value.includes(id) ? all.value.filter((x) => x !== id) : [...all.value, id];
  try {
    localStorage.setItem(key, JSON.stringify(all.value));
  } catch {
    // a browser that keeps nothing keeps it for as long as the page is open
  }
}
