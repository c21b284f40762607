import { batch, computed, effect, type Signal, signal, untracked } from "@preact/signals";
import { get, listen } from "../api/client.ts";
import type {
  Event as Change,
  DrawBand,
  DrawFrame,
  Live,
  ScreenOutletRow,
  ScreenPiece,
} from "../api/types.gen.ts";
import { jobPath, query } from "./address.ts";
import { alternative, chosen, question, room, set, supply, units, view } from "./ask.ts";
import { afterPaint } from "./frame.ts";
import { closeness } from "./look.ts";
import { paper } from "./paper.ts";
import { emptySheet, patchSheet } from "./scene.ts";

/** The newest revision of the job that the program has told of; −1 before it has. */
export const revision = signal(-1);
/** The revision that the drawing shows. */
export const shown = signal(-1);
/** The program answers. */
export const reached = signal(true);
/** The file that the job follows cannot be read as it is now. */
export const unread = signal(false);
/** Why there is no drawing. */
export const fault = signal("");

export const sheet = emptySheet();
/** Every thing of the job as the tools need it, by id. */
export const pieces = signal<ReadonlyMap<string, ScreenPiece>>(new Map());
/** How the parts of the drawing lie in the shop. */
export const frames = signal<readonly DrawFrame[]>([]);
export const legend = signal<readonly DrawBand[]>([]);
export const notes = signal<readonly string[]>([]);
export const sentence = signal("");
/** The set shown is that of an earlier revision: whether it still is what it was called has not been worked out. */
export const supposed = signal(false);
export const outletRows = signal<readonly ScreenOutletRow[]>([]);
/** Words of the step that would be undone and done again; "" for none. */
export const undoWords = signal("");
export const redoWords = signal("");
/** Everything is on the disk; where not, why not. */
export const saved = signal(true);
export const storeTrouble = signal("");

/** The JSON of a thing as it stands in the job file. */
export function thingOf<T>(id: string): T | undefined {
  return pieces.value.get(id)?.thing as T | undefined;
}

/** What is asked of the drawing; "" before its window has been measured. */
export const liveQuery = computed(() => {
  // A closer look is laid out for a larger sheet: there is room for what was left out.
  const { w, h } = paper.value;
  const larger = closeness.value;
  if (w === 0) return "";
  return query(
    ["view", view.value],
    ["room", view.value === "elevation" ? room.value : ""],
    ["w", `${w * larger}`],
    ["h", `${h * larger}`],
    ["set", set.value],
    ["case", supply.value],
    ["units", units.value],
    ["plan", alternative.value],
    ["supports", question.value === "hold" ? "yes" : ""],
  );
});

/** The question that the drawing answers now. */
const answered = signal("");

/** Which view of which room the drawing shows: another one is looked at from anew. */
export const drawnView = signal("");

/** A newer drawing, or one for another question, is on its way. */
export const drawingAwaited = computed(
  () => shown.value < revision.value || answered.value !== liveQuery.value,
);

function takePieces(live: Live, whole: boolean): void {
  if (!whole && live.pieces.length === 0 && live.gone.length === 0) return;
  const next = new Map(whole ? [] : pieces.value);
  for (const id of live.gone) next.delete(id);
  for (const p of live.pieces) next.set(p.id, p);
  pieces.value = next;
}

/** A list that says the same stays the one it was: nobody who shows it is painted anew. */
function keep<T>(list: Signal<readonly T[]>, next: readonly T[]): void {
  if (JSON.stringify(list.value) !== JSON.stringify(next)) list.value = next;
}

/** What stands beside the drawing follows once the drawing has been painted: the eye is on the drawing. */
function takeRest(live: Live): void {
  batch(() => {
    keep(legend, live.legend);
    keep(notes, live.notes);
    keep(outletRows, live.outlets);
    sentence.value = live.sentence;
    supposed.value = live.supposed;
    undoWords.value = live.undo;
    redoWords.value = live.redo;
    saved.value = live.saved;
    storeTrouble.value = live.trouble;
    revision.value = Math.max(revision.value, live.revision);
  });
}

/** Takes an answer; false where it does not follow on what is shown: then it is asked for anew. */
export function takeLive(live: Live, asked: string): boolean {
  const whole = live.since <= 0;
  if (asked !== liveQuery.value) return false;
  if (!whole && (live.since !== shown.value || asked !== answered.value)) return live.revision <= shown.value;
  batch(() => {
    if (whole) drawnView.value = `${view.value} ${room.value} ${alternative.value}`;
    if (live.gone.includes(chosen.value)) chosen.value = "";
    if (live.patch) patchSheet(sheet, live.patch, whole);
    takePieces(live, whole);
    keep(frames, live.frames);
    shown.value = live.revision;
    answered.value = asked;
    fault.value = "";
  });
  afterPaint(() => takeRest(live));
  return true;
}

let under: { target: string; stop: AbortController } | null = null;
let held = 0;
/** What the program told of the job while a step was on its way. */
let told: Change | null = null;

function hear(c: Change): void {
  // A program that was started anew may stand at an earlier revision.
  batch(() => {
    revision.value = c.revision;
    unread.value = c.old;
  });
}

/** While a step is on its way, its own answer brings the drawing. Returns the way to let go. */
export function holdDrawing(): () => void {
  held++;
  return () => {
    held--;
    const last = told;
    if (held === 0 && last) {
      told = null;
      // The page's own step is news to nobody here.
      if (last.revision > shown.value || last.old !== unread.value) hear(last);
    }
    pull();
  };
}

/** Asks for what the drawing lacks. */
export function pull(): void {
  const asked = liveQuery.value;
  const other = asked !== answered.value;
  if (asked === "" || held > 0 || (!other && shown.value >= revision.value)) return;
  const since = other ? 0 : Math.max(shown.value, 0);
  const target = `${jobPath("/live")}${asked}&since=${since}`;
  if (under?.target === target) return;
  under?.stop.abort();
  const mine = { target, stop: new AbortController() };
  under = mine;
  get<Live>(target, mine.stop.signal).then(
    (live) => {
      under = null;
      if (!takeLive(live, asked)) answered.value = "";
      pull();
    },
    (reason: unknown) => {
      if (under === mine) under = null;
      if (!mine.stop.signal.aborted) fault.value = reason instanceof Error ? reason.message : String(reason);
    },
  );
}

/** The same is asked for once more: what was supposed is known by now. */
export function askAnew(): void {
  answered.value = "";
  pull();
}

export function follow(): void {
  listen(
    jobPath("/events"),
    (c) => {
      if (held > 0) told = c;
      else hear(c);
    },
    (ok) => {
      reached.value = ok;
      if (ok) untracked(pull);
    },
  );
  effect(() => {
    void liveQuery.value;
    void revision.value;
    untracked(pull);
  });
}
