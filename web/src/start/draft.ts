import { signal } from "@preact/signals";
import { get } from "../api/client.ts";
import type { Start as Offered } from "../api/types.gen.ts";
import { units } from "../state/ask.ts";
import { type Draft, firstDraft, type System } from "./answers.ts";

/** The answers being given. */
export const draft = signal<Draft>(firstDraft("metric"));

/** What the questions offer, in the units of the answers. */
export const offer = signal<Offered | null>(null);
export const offerFault = signal("");

export function change(more: Partial<Draft>): void {
  draft.value = { ...draft.value, ...more };
}

const key = "dropleg.units";
const systems: readonly System[] = ["metric", "us", "mixed"];

/** The units that were chosen last on this page; else those of the browser's country. */
export function readUnits(): System {
  try {
    const kept = systems.find((s) => s === localStorage.getItem(key));
    if (kept) return kept;
  } catch {
    // Storage is shut: the country decides.
  }
  return navigator.language === "en-US" ? "us" : "metric";
}

export function takeUnits(system: System): void {
  units.value = system;
  change({ units: system });
  try {
    localStorage.setItem(key, system);
  } catch {
    // As above.
  }
  fetchOffer();
}

export function fetchOffer(): void {
  const system = draft.value.units;
  get<Offered>(`/api/start?units=${system}`).then(
    (o) => {
      if (draft.value.units !== system) return;
      offer.value = o;
      offerFault.value = "";
    },
    (e: unknown) => {
      offerFault.value = e instanceof Error ? e.message : String(e);
    },
  );
}

/** Begins the questions anew, for a shop to come or for one that stands. */
export function anew(existing: boolean): void {
  draft.value = firstDraft(draft.value.units, existing);
  if (!offer.value) fetchOffer();
}
