import { computed, effect, untracked } from "@preact/signals";
import type { Days, Hour } from "../api/types.gen.ts";
import { query } from "./address.ts";
import { question, set } from "./ask.ts";
import { inUnits, job, questions, resource, whereReadable } from "./data.ts";
import { askAnew, shown, supposed } from "./live.ts";

const asked = (): boolean => question.value === "air";

/** A few days: there at once after an edit. */
const rough = resource<Days>(() =>
  asked() ? whereReadable(`/days${query(["rough", "yes"], ...inUnits())}`) : "",
);

/** As many days as it takes, where a few do not tell. */
const closer = resource<Days>(() =>
  asked() && rough.value.value?.rough ? whereReadable(`/days${query(...inUnits())}`) : "",
);

/** The working days to show: the closer ones as soon as they are of the same revision. */
export const days = computed<Days | null>(() => {
  const few = rough.value.value;
  const many = closer.value.value;
  return few && many && many.revision >= few.revision ? many : few;
});

export const daysFault = computed(() => rough.fault.value || closer.fault.value);

const key = "moment-";

/** The moment of the first day that the drawing shows, s; null where it shows a set of tools. */
export const moment = computed<number | null>(() =>
  set.value.startsWith(key) ? Number(set.value.slice(key.length)) : null,
);

/** The drawing shows that moment from now on; null goes back to the shop's worst. */
export function showMoment(at: number | null): void {
  set.value = at === null ? "" : `${key}${Math.round(at)}`;
}

const hourOf = computed(() =>
  Math.floor(Math.min(moment.value ?? 0, Math.max(0, (days.value?.time_s ?? 1) - 1)) / 3600),
);

/** The hour about the moment shown. */
export const hour = resource<Hour>(() =>
  asked() && (days.value?.time_s ?? 0) > 0 && days.value?.known !== ""
    ? whereReadable(`/days/first/${hourOf.value}${query(...inUnits())}`)
    : "",
);

/** A time of the working day by the clock, from the seconds since it began. */
export function clock(seconds: number): string {
  const minutes = Math.floor(((job.value.value?.head?.opens_s ?? 0) + seconds) / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Once the questions, or the days, are answered for the revision shown, the drawing shows what they say. */
export function followSupposed(): void {
  let asked = -1;
  effect(() => {
    const known = (moment.value === null ? questions.value.value : days.value)?.revision ?? -1;
    const now = shown.value;
    if (!supposed.value || known < now || asked === now) return;
    asked = now;
    untracked(askAnew);
  });
}
