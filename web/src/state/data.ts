import { computed, effect, type ReadonlySignal, type Signal, signal, untracked } from "@preact/signals";
import { get } from "../api/client.ts";
import type {
  Build,
  Cost,
  Findings,
  Hold,
  Job,
  Keep,
  Prove,
  Purchase,
  Questions,
  Quote,
  Thing,
  Water,
  Way,
  Weak,
} from "../api/types.gen.ts";
import { jobId, jobPath, query } from "./address.ts";
import { against, alternative, chosen, panel, question, set, supply, unasked, units } from "./ask.ts";
import { outletRows, revision, unread } from "./live.ts";
import { unsent } from "./post.ts";
import { jobUnits } from "./unit.ts";

/** One resource: its last answer, and whether a newer one is awaited. */
export interface Resource<T> {
  value: Signal<T | null>;
  fault: Signal<string>;
  /** The path of the answer shown is not the path asked for now, or the file has changed. */
  awaited: ReadonlySignal<boolean>;
}

interface Stamped {
  revision: number;
}

/** Nothing is fetched before the address has been read. */
const starters: (() => void)[] = [];
let begun = false;

export function begin(): void {
  begun = true;
  for (const start of starters) start();
}

/** After an edit so long nothing else must have happened, ms: the answers that take longer do not hold up the hand. */
const idle = 150;

/**
 * Fetches at once when the path changes, and when the job has a newer revision as soon as nobody edits
 * any more; "" fetches nothing. A cue that changes says that the answer is another one at the same revision.
 */
export function resource<T extends Stamped>(path: () => string, cue: () => unknown = () => 0): Resource<T> {
  const value = signal<T | null>(null);
  const fault = signal("");
  const shown = signal("");
  const wanted = computed(path);
  let under: { target: string; stop: AbortController } | null = null;
  let later: ReturnType<typeof setTimeout> | undefined;
  let cued: unknown;

  const load = (target: string) => {
    cued = untracked(cue);
    under?.stop.abort();
    const mine = { target, stop: new AbortController() };
    under = mine;
    get<T>(target, mine.stop.signal)
      .then(
        (answer) => {
          value.value = answer;
          fault.value = "";
        },
        (reason: unknown) => {
          if (!mine.stop.signal.aborted)
            fault.value = reason instanceof Error ? reason.message : String(reason);
        },
      )
      .finally(() => {
        if (mine.stop.signal.aborted) return;
        under = null;
        shown.value = target;
        // The job changed while this was on its way.
        if (fault.value === "" && behind()) wait(target);
      });
  };
  const wait = (target: string) => {
    clearTimeout(later);
    later = setTimeout(() => {
      if (wanted.value !== target) return;
      if (unsent.value > 0) wait(target);
      else load(target);
    }, idle);
  };
  const behind = () => value.value !== null && value.value.revision < revision.value;

  const follow = () => {
    const target = wanted.value;
    const newest = revision.value;
    const now = cue();
    const busy = unsent.value > 0;
    untracked(() => {
      if (target === "") {
        clearTimeout(later);
        under?.stop.abort();
        under = null;
        value.value = null;
        fault.value = "";
      } else if ((under?.target !== target && shown.value !== target) || now !== cued) load(target);
      else if (under && !value.value && !busy) {
        // The first answer is still on its way; whether it is the newest is seen when it comes.
      } else if ((value.value?.revision ?? -1) < newest || (busy && under)) {
        // What is on its way answers an earlier revision, or one that a step is about to end: nobody waits for it
        // any more, and the program has its hands free.
        under?.stop.abort();
        under = null;
        wait(target);
      }
    });
  };
  const start = () => void effect(follow);
  if (begun) start();
  else starters.push(start);
  const awaited = computed(() => wanted.value !== "" && (shown.value !== wanted.value || behind()));
  return { value, fault, awaited };
}

/** What every answer about pressures depends on. */
export const ask = (): [string, string][] => [["set", set.value], ["case", supply.value], ...inUnits()];

/** What every other answer depends on. */
export const inUnits = (): [string, string][] => [
  ["units", units.value],
  ["plan", alternative.value],
];

export const job = resource<Job>(
  () => (jobId === "" ? "" : jobPath(query(...inUnits()))),
  () => unread.value,
);
/** A file that could never be read has nothing else to ask for. */
const readable = computed(() => job.value.value?.head != null);
export const whereReadable = (path: string): string => (readable.value ? jobPath(path) : "");

export const questions = resource<Questions>(() => whereReadable(`/questions${query(...inUnits())}`));
export const findings = resource<Findings>(() => whereReadable(`/findings${query(...inUnits())}`));
export const purchase = resource<Purchase>(() =>
  question.value === "buy" ? whereReadable(`/purchase${query(...inUnits())}`) : "",
);

export const quotation = resource<Quote>(() =>
  question.value === "buy" ? whereReadable(`/quote${query(["against", against.value], ...inUnits())}`) : "",
);

export const water = resource<Water>(() =>
  question.value === "dry" ? whereReadable(`/water${query(...inUnits())}`) : "",
);
export const hold = resource<Hold>(() =>
  question.value === "hold" ? whereReadable(`/hold${query(...inUnits())}`) : "",
);
export const build = resource<Build>(() =>
  question.value === "build" ? whereReadable(`/build${query(...inUnits())}`) : "",
);
export const prove = resource<Prove>(() =>
  question.value === "prove" ? whereReadable(`/prove${query(...inUnits())}`) : "",
);
export const keep = resource<Keep>(() =>
  question.value === "keep" ? whereReadable(`/keep${query(...inUnits())}`) : "",
);
export const cost = resource<Cost>(() =>
  question.value === "run" ? whereReadable(`/cost${query(...inUnits())}`) : "",
);

export const weak = resource<Weak>(() =>
  panel.value === "weak" ? whereReadable(`/weak${query(...inUnits())}`) : "",
);

export const way = resource<Way>(() =>
  chosen.value.startsWith("outlet.")
    ? whereReadable(`/outlets/${encodeURIComponent(chosen.value)}/path${query(...ask())}`)
    : "",
);

export const thing = resource<Thing>(() =>
  chosen.value !== "" && !chosen.value.startsWith("outlet.")
    ? whereReadable(`/things/${encodeURIComponent(chosen.value)}${query(...ask())}`)
    : "",
);

/** The things that the air passes on its way to the outlet chosen. */
export const route = computed<ReadonlySet<string>>(() => new Set(way.value.value?.steps.map((s) => s.id)));

/** A page opened without a wish shows the way to the outlet with the least to spare, where there is room beside the drawing. */
export function openWorst(): void {
  if (!unasked.value || !matchMedia("(min-width: 900px)").matches) return;
  const stop = effect(() => {
    const worst = outletRows.value[0];
    if (!worst) return;
    queueMicrotask(() => stop());
    if (chosen.value === "" && (worst.state === "short" || worst.state === "enough")) chosen.value = worst.id;
  });
}

/** Lengths that the page writes by itself are in the job's units where the person asks for none. */
export function followUnits(): void {
  effect(() => {
    jobUnits.value = job.value.value?.head?.units ?? "metric";
  });
}

/** Something shown is still of an earlier revision. */
export const outdated = computed(() =>
  [job, questions, findings, way, thing].some(
    (r) => (r.value.value?.revision ?? revision.value) < revision.value,
  ),
);
