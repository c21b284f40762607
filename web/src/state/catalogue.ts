import { effect, signal } from "@preact/signals";
import { get } from "../api/client.ts";
import type { Catalogue, CatalogueKind, CatalogueStock } from "../api/types.gen.ts";
import { jobPath, query } from "./address.ts";
import { units } from "./ask.ts";
import { jobUnits } from "./unit.ts";

/** What pickers offer: the built-in rows and the job's own, figures in the person's units. null before it has come. */
export const catalogue = signal<Catalogue | null>(null);

let following = false;

/** Asks for the catalogue at the first wish for it, and anew when the units change. */
export function wantCatalogue(): void {
  if (following) return;
  following = true;
  let under: AbortController | null = null;
  effect(() => {
    const path = jobPath(`/catalogue${query(["units", units.value || jobUnits.value])}`);
    under?.abort();
    const mine = new AbortController();
    under = mine;
    get<Catalogue>(path, mine.signal).then(
      (c) => {
        catalogue.value = c;
      },
      () => {
        // Without an answer the next wish tries again.
        if (!mine.signal.aborted && catalogue.value === null) following = false;
      },
    );
  });
}

export const stockRow = (id: string): CatalogueStock | undefined =>
  catalogue.value?.stocks.find((s) => s.id === id);

export const kindRow = (id: string): CatalogueKind | undefined =>
  catalogue.value?.kinds.find((k) => k.id === id);
