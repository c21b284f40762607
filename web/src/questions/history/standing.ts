import type { HistoryStep } from "../../api/types.gen.ts";

/**
 * Which edits are in force after each step: by revision, the revisions of the edits that stand. It is worked out
 * from the steps given, oldest first; what lies before the first is taken as standing and is not listed.
 */
export function standing(steps: readonly HistoryStep[]): ReadonlyMap<number, ReadonlySet<number>> {
  const rows = [...steps].sort((a, b) => a.revision - b.revision);
  const after = new Map<number, ReadonlySet<number>>();
  const kinds = new Map(rows.map((s) => [s.revision, s]));
  const at = (revision: number): ReadonlySet<number> => after.get(revision) ?? new Set();
  let now: ReadonlySet<number> = new Set();
  for (const s of rows) {
    const next = new Set(now);
    const of = kinds.get(s.of);
    if (s.kind === "edit") next.add(s.revision);
    else if (s.kind === "undo" || s.kind === "redo") {
      const whole = of?.kind === "replace";
      if (whole) {
        // Going back is taken back as a whole, and done again as a whole.
        const then = s.kind === "undo" ? at(of.revision - 1) : at(of.revision);
        next.clear();
        for (const r of then) next.add(r);
      } else if (s.kind === "undo") next.delete(s.of);
      else next.add(s.of);
    } else if (isBack(s)) {
      next.clear();
      for (const r of at(s.of)) next.add(r);
    } else next.add(s.revision);
    after.set(s.revision, next);
    now = next;
  }
  return after;
}

/** A step back to an earlier state, and no new document: it names the state. */
export const isBack = (s: HistoryStep): boolean => s.kind === "replace" && s.words.startsWith("went back");

/** What going to a revision would do to the edits listed. */
export function going(
  steps: readonly HistoryStep[],
  to: number,
): { taken: readonly HistoryStep[]; brought: readonly HistoryStep[] } {
  const after = standing(steps);
  const newest = Math.max(0, ...steps.map((s) => s.revision));
  const now = after.get(newest) ?? new Set<number>();
  const then = after.get(to) ?? new Set<number>();
  const words = (from: ReadonlySet<number>, not: ReadonlySet<number>) =>
    [...steps]
      .sort((a, b) => b.revision - a.revision)
      .filter((s) => from.has(s.revision) && !not.has(s.revision));
  return { taken: words(now, then), brought: words(then, now) };
}
