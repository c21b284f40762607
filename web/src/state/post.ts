import { signal } from "@preact/signals";
import { Refused, send } from "../api/client.ts";
import type { Live, Problem } from "../api/types.gen.ts";
import { words } from "../words/words.ts";
import { jobPath } from "./address.ts";
import { alternative } from "./ask.ts";
import { holdDrawing, liveQuery, pull, revision, shown, takeLive } from "./live.ts";
import { myName } from "./name.ts";
import { say, trouble } from "./notice.ts";
import { Queue, type Sent } from "./queue.ts";

/** What became of a step. */
export type Outcome =
  | { done: true; words: string; made: readonly string[]; merged: boolean }
  | { done: false; why: string; problems: readonly Problem[]; conflict: boolean };

interface Step {
  path: string;
  body: object;
  /** The revision it was thought on. */
  base: number;
  /** It is done on the job itself, whatever alternative is shown. */
  onJob?: boolean;
}

/** A step on its way. Whatever becomes of the line, the program makes it once: it knows it by its key. */
interface Row extends Step {
  key: string;
}

/** Steps that have not been answered yet, and whether the program cannot be reached. */
export const unsent = signal(0);
export const stuck = signal(false);
/** How many steps of this page were taken. */
export const taken = signal(0);

const pause = 1500; // ms until another try

let wake = () => {};

function rest(): Promise<void> {
  return new Promise((go) => {
    const timer = setTimeout(go, pause);
    wake = () => {
      clearTimeout(timer);
      go();
    };
  });
}

const queue = new Queue<Row, Outcome>(post, rest, (length, cannot) => {
  unsent.value = length;
  stuck.value = cannot;
});

/** Sixteen random bytes. crypto.randomUUID is not there where the page comes over plain http. */
function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

const put = (step: Step): Promise<Outcome> => queue.put({ ...step, key: newKey() });

/** Tries at once what waits, because the line is back. */
export function followLine(): void {
  addEventListener("online", () => wake());
  addEventListener("beforeunload", (e) => {
    if (unsent.value > 0) e.preventDefault();
  });
}

/** Puts a gesture or an edit in the queue. The drawing follows its answer by itself. */
export function step(what: { do: string } | { edit: string } | object): Promise<Outcome> {
  return put({ path: "/steps", body: { step: what }, base: shown.value });
}

/** A step on the job itself, whatever alternative is shown: its alternatives are things of the job. */
export function stepOnJob(what: { do: string } | { edit: string } | object): Promise<Outcome> {
  return put({ path: "/steps", body: { step: what }, base: shown.value, onJob: true });
}

/** Takes the sure rows of a price list. */
export const takeList = (file: string, ask: object): Promise<Outcome> =>
  put({ path: "/prices", body: { file, ask }, base: shown.value });

export const undo = (): Promise<Outcome> => put({ path: "/undo", body: {}, base: shown.value });
export const redo = (): Promise<Outcome> => put({ path: "/redo", body: {}, base: shown.value });
export const goTo = (to: number): Promise<Outcome> =>
  put({ path: "/goto", body: { revision: to }, base: shown.value });
export const adopt = (plan: string): Promise<Outcome> =>
  put({ path: "/adopt", body: { plan }, base: shown.value });

async function post(row: Row): Promise<Sent<Outcome>> {
  const letGo = holdDrawing();
  const asked = liveQuery.value;
  try {
    // What is asked of the drawing may name the alternative; without a drawing it is named alone.
    const onJob = row.onJob && alternative.value !== "";
    const where = onJob
      ? ""
      : asked || (alternative.value === "" ? "" : `?plan=${encodeURIComponent(alternative.value)}`);
    const base = Math.max(row.base, shown.value);
    const live = await send<Live>("POST", `${jobPath(row.path)}${where}`, {
      base,
      by: myName.value,
      key: row.key,
      ...row.body,
    });
    if (row.path === "/steps") taken.value++;
    // The answer to a step on the job is not about the alternative that is shown.
    if (onJob || !takeLive(live, asked)) revision.value = Math.max(revision.value, live.revision);
    trouble.value = null;
    say(live.words);
    return { reached: true, answer: done(live.words, live.made ?? [], live.merged) };
  } catch (reason) {
    if (!(reason instanceof Refused)) return { reached: false };
    return { reached: true, answer: refused(reason) };
  } finally {
    letGo();
  }
}

const done = (text: string, made: readonly string[], merged: boolean): Outcome => ({
  done: true,
  words: text,
  made,
  merged,
});

/** A refusal is shown at the tool; what the others did meanwhile is fetched. */
function refused(reason: Refused): Outcome {
  const told = reason.fault;
  const conflict = reason.status === 409;
  const problems = told.problems ?? [];
  // What the message says already is not said twice.
  const lines = problems
    .filter((p) => !reason.message.includes(p.read) || !reason.message.includes(p.want))
    .map((p) => (p.read ? `${p.read}: ${words.wanted} ${p.want}` : p.want));
  const why =
    conflict && told.conflict?.words
      ? `${told.conflict.by || words.somebody}: ${told.conflict.words}. ${words.conflict}`
      : reason.message;
  trouble.value = {
    kind: conflict ? "conflict" : reason.status === 422 ? "refused" : "failed",
    words: why,
    lines,
  };
  if (conflict) pull();
  return { done: false, why, problems, conflict };
}
