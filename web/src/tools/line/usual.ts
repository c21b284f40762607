import type { CatalogueStock, JobRun } from "../../api/types.gen.ts";

// What lines are drawn of where nobody says it.

/** The stock and size that the job has most of. */
export function usual(runs: readonly JobRun[]): { stock: string; size: string } | null {
  const count = new Map<string, { run: JobRun; n: number }>();
  for (const run of runs) {
    const k = `${run.stock} ${run.size}`;
    count.set(k, { run, n: (count.get(k)?.n ?? 0) + 1 });
  }
  const [most] = [...count.values()].sort((a, b) => b.n - a.n);
  return most ? { stock: most.run.stock, size: most.run.size } : null;
}

/** Bores nearest to this suit the main of a small shop, mm. */
const usualBore = 20;

/** A size that the stock comes in: the one asked for, else the nearest to a usual bore. */
export function sizeIn(stock: CatalogueStock, size: string): string {
  if (stock.sizes.some((s) => s.size === size)) return size;
  const [best] = [...stock.sizes].sort(
    (a, b) => Math.abs(a.bore_mm - usualBore) - Math.abs(b.bore_mm - usualBore),
  );
  return best?.size ?? "";
}
