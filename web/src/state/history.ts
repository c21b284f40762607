import { effect, signal } from "@preact/signals";
import { get } from "../api/client.ts";
import type { History, HistoryStep } from "../api/types.gen.ts";
import { dayWords } from "../words/when.ts";
import { jobPath } from "./address.ts";
import { revision } from "./live.ts";

/** The steps known, newest first. */
export const steps = signal<readonly HistoryStep[]>([]);
export const more = signal(false);
export const fault = signal("");
export const fetched = signal(-1);
const page = 50;

export async function fetchSteps(before: number): Promise<void> {
  try {
    const answer = await get<History>(
      jobPath(`/history?most=${page}${before > 0 ? `&before=${before}` : ""}`),
    );
    const known = new Map(steps.value.map((s) => [s.revision, s]));
    const oldest = Math.min(...answer.steps.map((s) => s.revision));
    // Between the newest page and what was known there must be no gap.
    const joins = before > 0 || [...known.keys()].some((r) => r >= oldest - 1);
    if (!joins) known.clear();
    for (const s of answer.steps) known.set(s.revision, s);
    steps.value = [...known.values()].sort((a, b) => b.revision - a.revision);
    if (before > 0 || !joins || fetched.value < 0) more.value = answer.more;
    fetched.value = Math.max(fetched.value, answer.revision);
    fault.value = "";
  } catch (e) {
    fault.value = e instanceof Error ? e.message : String(e);
  }
}

/** Steps by the day they were done on, newest first. */
export function byDay(rows: readonly HistoryStep[], now: Date): [string, HistoryStep[]][] {
  const days = new Map<string, HistoryStep[]>();
  for (const s of rows) {
    const day = dayWords(now, new Date(s.when));
    days.set(day, [...(days.get(day) ?? []), s]);
  }
  return [...days];
}

/** Fetches what is new as it comes, until the answer is called. */
export function followSteps(): () => void {
  return effect(() => {
    if (revision.value > fetched.value || fetched.value < 0) void fetchSteps(0);
  });
}
