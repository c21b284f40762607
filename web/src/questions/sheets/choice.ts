import { effect, signal } from "@preact/signals";
import { query } from "../../state/address.ts";
import { against, alternative, units } from "../../state/ask.ts";

/** What stands in the title block; kept in this browser. */
export interface Stamp {
  by: string;
  mark: string;
  revision: string;
}

const key = "dropleg.stamp";

function kept(): Stamp {
  const empty = { by: "", mark: "", revision: "" };
  try {
    return { ...empty, ...(JSON.parse(localStorage.getItem(key) ?? "{}") as Partial<Stamp>) };
  } catch {
    return empty; // storage is shut, or holds something else
  }
}

export const stamp = signal<Stamp>(kept());
/** Size of paper; "" is the usual one. */
export const paper = signal("");
/** Sheets left out of the book. */
export const left = signal<ReadonlySet<string>>(new Set());
/** The sheet looked at, and which of its leaves. */
export const looked = signal("plan");
export const leaf = signal(1);

effect(() => {
  try {
    localStorage.setItem(key, JSON.stringify(stamp.value));
  } catch {
    // It lasts as long as the page.
  }
});

export function toggle(id: string, all: readonly string[]): void {
  const next = new Set(left.value);
  if (!next.delete(id)) next.add(id);
  if (next.size < all.length) left.value = next;
}

/** The sheets of the book as the server takes them; "" is all of them. */
export function onlyOf(all: readonly string[], without: ReadonlySet<string>): string {
  return without.size === 0 ? "" : all.filter((id) => !without.has(id)).join(",");
}

/** What was chosen and the job as it is looked at, as a query, with what else is asked. */
export function asked(...more: readonly (readonly [string, string])[]): string {
  const s = stamp.value;
  return query(
    ["paper", paper.value],
    ["by", s.by],
    ["mark", s.mark],
    ["revision", s.revision],
    ...more,
    ["plan", alternative.value],
    ["units", units.value],
    ["against", against.value],
  );
}
