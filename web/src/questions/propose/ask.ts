import { type Signal, signal } from "@preact/signals";
import { Refused } from "../../api/client.ts";
import { askLines } from "../../api/lines.ts";
import type { Fault, Proposed, ScreenProposals } from "../../api/types.gen.ts";
import { jobPath, query } from "../../state/address.ts";
import { alternative, supply, units } from "../../state/ask.ts";

/** One question that takes a while: how far it is, and what came of it. */
export interface Asked<W, F = ScreenProposals> {
  /** How far the program is, while it works. */
  under: Signal<{ doing: string; done: number; total: number } | null>;
  /** What came of it, and of which revision. */
  found: Signal<{ revision: number; answer: F } | null>;
  trouble: Signal<string>;
  /** What was said of the last answer that was taken or kept. */
  told: Signal<string>;
  ask: (wish: W) => Promise<void>;
  cancel: () => void;
  /** The wish cannot be read: nothing is asked, and why is told. */
  fail: (e: unknown) => void;
}

/** What is asked of the program at a path of the job, with what came of it. */
export function asking<W extends object, F = ScreenProposals>(
  at: "/proposals" | "/extensions" | "/calibration",
): Asked<W, F> {
  const under: Asked<W, F>["under"] = signal(null);
  const found: Asked<W, F>["found"] = signal(null);
  const trouble = signal("");
  const told = signal("");
  let stop: AbortController | null = null;
  const cancel = () => {
    stop?.abort();
    stop = null;
    under.value = null;
  };
  const tell = (e: unknown) => {
    trouble.value = e instanceof Error ? e.message : String(e);
  };
  const fail = (e: unknown) => {
    cancel();
    found.value = null;
    tell(e);
  };
  const ask = async (wish: W) => {
    cancel();
    const mine = new AbortController();
    stop = mine;
    told.value = "";
    trouble.value = "";
    found.value = null;
    under.value = { doing: "", done: 0, total: 0 };
    try {
      const path = `${jobPath(at)}${query(["plan", alternative.value], ["case", supply.value], ["units", units.value])}`;
      const answer = await askLines<Omit<Proposed, "found"> & { found: F | null }>(path, wish, mine.signal);
      if (answer instanceof Response) throw new Refused((await answer.json()) as Fault);
      for await (const line of answer) {
        if (line.fault !== "") throw new Error(line.fault);
        if (line.found) found.value = { revision: line.revision, answer: line.found };
        else under.value = line;
      }
    } catch (e) {
      if (!mine.signal.aborted) tell(e);
    }
    if (stop === mine) {
      stop = null;
      under.value = null;
    }
  };
  return { under, found, trouble, told, ask, cancel, fail };
}
