import type { ScreenFinding } from "../../api/types.gen.ts";

/** A cure that was made or refused. */
export interface Tried {
  words: string;
  /** Why it was not made; "" where it was. */
  why: string;
  /** The finding it was for. */
  code: string;
  where: readonly string[];
  /** The revision that has it. */
  revision: number;
}

/** The title of what is left of a finding after its cure; "" where it is gone. */
export function leftOf(tried: Tried, now: readonly ScreenFinding[]): string {
  const same = (f: ScreenFinding) =>
    f.code === tried.code && (tried.where.length === 0 || f.where[0]?.id === tried.where[0]);
  return now.find(same)?.title ?? "";
}
