import type { ScreenOrigin } from "../../api/types.gen.ts";
import { inspectWords } from "../../words/inspect.ts";
import { words } from "../../words/words.ts";

export interface OriginRow {
  words: string;
  lines: readonly string[];
  /** An equation: set so that its signs stand apart. */
  law?: boolean;
}

/** What there is to say of where a figure comes from, in the order that a reader asks. */
export function rowsOf(o: ScreenOrigin): OriginRow[] {
  const rows: OriginRow[] = [];
  if (o.name || o.law)
    rows.push({ words: words.law, lines: [o.name ?? "", o.law ?? ""].filter((l) => l !== ""), law: true });
  if (o.inputs.length > 0) rows.push({ words: words.inputs, lines: o.inputs });
  rows.push({ words: inspectWords.range, lines: [o.range || inspectWords.unknown] });
  if (o.holds) rows.push({ words: inspectWords.holds, lines: [o.holds] });
  if (o.sources.length > 0) rows.push({ words: words.source, lines: o.sources });
  return rows;
}
