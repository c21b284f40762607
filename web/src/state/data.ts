import { computed, effect, type ReadonlySignal, type Signal, signal, untracked } from "@preact/signals";
import { get } from "../api/client.ts";
import type { Findings, Job, Outlets, Parts, Plan, Questions, Thing, Way } from "../api/types.gen.ts";
import { chosen, question, set, supply, unasked, units } from "./ask.ts";
import { revision } from "./live.ts";
import { closeness } from "./look.ts";
import { paper } from "./paper.ts";

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

export function begin(): void {
  for (const start of starters) start();
}

/** Fetches again whenever the path changes or the file has a newer revision; "" fetches nothing. */
function resource<T extends Stamped>(path: () => string): Resource<T> {
  const value = signal<T | null>(null);
  const fault = signal("");
  const shown = signal("");
  const wanted = computed(path);
  let under: { target: string; stop: AbortController } | null = null;

  const load = (target: string) => {
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
        // The file changed while this was on its way.
        if (fault.value === "" && behind()) load(target);
      });
  };
  const behind = () => value.value !== null && value.value.revision < revision.value;

  const follow = () => {
    const target = wanted.value;
    const newest = revision.value;
    untracked(() => {
      if (target === "") {
        under?.stop.abort();
        under = null;
        value.value = null;
        fault.value = "";
      } else if (
        under?.target !== target &&
        (shown.value !== target || (value.value?.revision ?? 0) < newest)
      ) {
        load(target);
      }
    });
  };
  starters.push(() => effect(follow));
  const awaited = computed(() => wanted.value !== "" && (shown.value !== wanted.value || behind()));
  return { value, fault, awaited };
}

function query(...pairs: [string, string][]): string {
  const q = new URLSearchParams(pairs.filter(([, v]) => v !== ""));
  const text = q.toString();
  return text === "" ? "" : `?${text}`;
}

const ask = (): [string, string][] => [
  ["set", set.value],
  ["case", supply.value],
  ["units", units.value],
];

export const job = resource<Job>(() => `/api/job${query(["units", units.value])}`);
/** A file that could never be read has nothing else to ask for. */
const readable = computed(() => job.value.value?.head != null);
const whereReadable = (path: string) => (readable.value ? path : "");

export const questions = resource<Questions>(() =>
  whereReadable(`/api/questions${query(["units", units.value])}`),
);
export const findings = resource<Findings>(() =>
  whereReadable(`/api/findings${query(["units", units.value])}`),
);
export const outlets = resource<Outlets>(() => whereReadable(`/api/outlets${query(...ask())}`));
export const parts = resource<Parts>(() =>
  question.value === "buy" ? whereReadable(`/api/parts${query(["units", units.value])}`) : "",
);

export const plan = resource<Plan>(() => {
  // A closer look is laid out for a larger sheet: there is room for what was left out.
  const larger = closeness.value;
  const w = paper.value.w * larger;
  const h = paper.value.h * larger;
  return w === 0
    ? ""
    : whereReadable(`/api/scene${query(["view", "plan"], ...ask(), ["w", `${w}`], ["h", `${h}`])}`);
});

export const way = resource<Way>(() =>
  chosen.value.startsWith("outlet.")
    ? whereReadable(`/api/outlets/${encodeURIComponent(chosen.value)}/path${query(...ask())}`)
    : "",
);

export const thing = resource<Thing>(() =>
  chosen.value !== "" && !chosen.value.startsWith("outlet.")
    ? whereReadable(`/api/things/${encodeURIComponent(chosen.value)}${query(...ask())}`)
    : "",
);

/** The things that the air passes on its way to the outlet chosen. */
export const route = computed<ReadonlySet<string>>(() => new Set(way.value.value?.steps.map((s) => s.id)));

/** A page opened without a wish shows the way to the outlet with the least to spare, where there is room beside the drawing. */
export function openWorst(): void {
  if (!unasked.value || !matchMedia("(min-width: 900px)").matches) return;
  const stop = effect(() => {
    const worst = outlets.value.value?.outlets[0];
    if (!worst) return;
    queueMicrotask(() => stop());
    if (chosen.value === "" && (worst.state === "short" || worst.state === "enough")) chosen.value = worst.id;
  });
}

/** The file has changed and something shown is still of an earlier revision. */
export const outdated = computed(() =>
  [job, questions, findings, outlets, plan, way, thing].some(
    (r) => (r.value.value?.revision ?? revision.value) < revision.value,
  ),
);
