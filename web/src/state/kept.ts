import { effect, type Signal, signal } from "@preact/signals";
import { jobId } from "./address.ts";

/**
 * What is half entered for this job and has to outlive a reload: a phone that is put away between two readings
 * forgets its pages. good says whether what was kept still has the form that is wanted.
 */
export function kept<T>(name: string, empty: T, good: (had: T) => boolean): Signal<T> {
  const key = `dropleg.${name}.${jobId}`;
  const of = signal<T>(empty);
  try {
    const had = JSON.parse(localStorage.getItem(key) ?? "null") as T | null;
    if (had !== null && good(had)) of.value = had;
  } catch {
    // nothing of use was kept
  }
  effect(() => {
    const now = of.value;
    try {
      localStorage.setItem(key, JSON.stringify(now));
    } catch {
      // it lasts as long as the page
    }
  });
  return of;
}
