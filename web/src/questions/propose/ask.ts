import { signal } from "@preact/signals";
import { Refused } from "../../api/client.ts";
import { askLines } from "../../api/lines.ts";
import type { Fault, Proposed, ScreenProposals } from "../../api/types.gen.ts";
import { jobPath, query } from "../../state/address.ts";
import { alternative, supply, units } from "../../state/ask.ts";

/** What may be asked for. */
export interface Wish {
  lines: boolean;
  sizes: boolean;
  keep: boolean;
  only: string[];
  growth: number;
}

/** How far the program is, while it works. */
export const under = signal<{ doing: string; done: number; total: number } | null>(null);
/** What came of it, and of which revision. */
export const found = signal<{ revision: number; proposals: ScreenProposals } | null>(null);
export const trouble = signal("");

let stop: AbortController | null = null;

export function cancel(): void {
  stop?.abort();
  stop = null;
  under.value = null;
}

export async function ask(wish: Wish): Promise<void> {
  cancel();
  const mine = new AbortController();
  stop = mine;
  trouble.value = "";
  found.value = null;
  under.value = { doing: "", done: 0, total: 0 };
  try {
    const path = `${jobPath("/proposals")}${query(["plan", alternative.value], ["case", supply.value], ["units", units.value])}`;
    const answer = await askLines<Proposed>(path, wish, mine.signal);
    if (answer instanceof Response) throw new Refused((await answer.json()) as Fault);
    for await (const line of answer) {
      if (line.fault !== "") throw new Error(line.fault);
      if (line.found) found.value = { revision: line.revision, proposals: line.found };
      else under.value = line;
    }
  } catch (e) {
    if (!mine.signal.aborted) trouble.value = e instanceof Error ? e.message : String(e);
  }
  if (stop === mine) {
    stop = null;
    under.value = null;
  }
}
