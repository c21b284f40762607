import { effect, signal } from "@preact/signals";
import type { CatalogueStock, JobRun } from "../../api/types.gen.ts";
import { catalogue, stockRow, wantCatalogue } from "../../state/catalogue.ts";
import { pieces } from "../../state/live.ts";
import { jobUnits } from "../../state/unit.ts";
import { kindOf } from "../field.ts";
import type { Made } from "./course.ts";
import { sizeIn, usual } from "./usual.ts";

/** What lines are drawn of: as used last in this browser, else as the job has most of. */
export const kit = signal<Made>({ stock: "", size: "", role: "main", state: "planned", corners: "" });

const key = "dropleg.line";

function kept(): Made | null {
  try {
    const text = localStorage.getItem(key);
    if (!text) return null;
    const had = JSON.parse(text) as Partial<Made>;
    return {
      ...kit.value,
      ...Object.fromEntries(Object.entries(had).filter(([, v]) => typeof v === "string")),
    };
  } catch {
    return null;
  }
}

/** For a job without lines: rigid pipe fit for air, in the sizes that its units suggest. */
function first(stocks: readonly CatalogueStock[], us: boolean): CatalogueStock | undefined {
  const inch = (s: CatalogueStock) => s.sizes.some((z) => z.size.includes("/"));
  const fit = stocks.filter((s) => s.fit_for_air === "yes" && s.form === "stick");
  return fit.find((s) => inch(s) === us) ?? fit[0];
}

let begun = false;

/** Fills what is not settled yet as soon as catalogue and job are there. */
export function openKit(): void {
  wantCatalogue();
  if (begun) return;
  begun = true;
  kit.value = kept() ?? kit.value;
  effect(() => {
    const stocks = catalogue.value?.stocks;
    if (!stocks || pieces.value.size === 0) return;
    const now = kit.peek();
    if (stockRow(now.stock)) return;
    const runs = [...pieces.value.values()].filter((p) => kindOf(p.id) === "line");
    const like = usual(runs.map((p) => p.thing as JobRun));
    const row = stockRow(like?.stock ?? "") ?? first(stocks, jobUnits.value === "us");
    if (row) kit.value = { ...now, stock: row.id, size: sizeIn(row, like?.size ?? "") };
  });
  effect(() => {
    const text = JSON.stringify(kit.value);
    try {
      if (kit.value.stock !== "") localStorage.setItem(key, text);
    } catch {
      // Storage is shut: it lasts as long as the page.
    }
  });
}

/** Takes another stock; the size is kept where the stock comes in it. */
export function takeStock(made: Made, id: string): Made {
  const row = stockRow(id);
  if (!row) return made;
  const corners = row.corners === "sweep" ? made.corners : "";
  return { ...made, stock: id, size: sizeIn(row, made.size), corners };
}
