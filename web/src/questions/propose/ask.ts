import { signal } from "@preact/signals";
import { Refused } from "../../api/client.ts";
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

/** Reads one JSON to the line as they come. */
async function* lines(body: ReadableStream<Uint8Array>): AsyncGenerator<Proposed> {
  const reader = body.getReader();
  const text = new TextDecoder();
  let rest = "";
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const whole = (rest + text.decode(part.value, { stream: true })).split("\n");
    rest = whole.pop() ?? "";
    for (const line of whole) yield JSON.parse(line) as Proposed;
  }
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
    const answer = await fetch(path, {
      method: "POST",
      headers: { accept: "application/x-ndjson", "content-type": "application/json" },
      body: JSON.stringify(wish),
      signal: mine.signal,
    });
    if (!answer.ok || !answer.body) throw new Refused((await answer.json()) as Fault);
    for await (const line of lines(answer.body)) {
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
