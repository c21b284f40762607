import type { CatalogueStock } from "../../api/types.gen.ts";
import { units } from "../../state/ask.ts";
import { catalogue, stockRow } from "../../state/catalogue.ts";
import { jobUnits } from "../../state/unit.ts";
import { lineWords as words } from "../../words/lines.ts";
import type { Made } from "./course.ts";
import { kit, takeStock } from "./kit.ts";

/** A select with its word before it. */
export function Choice({
  label,
  value,
  rows,
  change,
}: {
  label: string;
  value: string;
  rows: readonly (readonly [string, string])[];
  change: (value: string) => void;
}) {
  return (
    <label class="select">
      <span>{label}</span>
      <select value={value} onChange={(e) => change(e.currentTarget.value)}>
        {rows.map(([id, text]) => (
          <option key={id} value={id}>
            {text}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A bore in the person's units. */
export function boreWords(mm: number): string {
  const us = (units.value || jobUnits.value) === "us";
  return words.bore(us ? `${(mm / 25.4).toFixed(2)} in` : `${mm.toFixed(1)} mm`);
}

export const sizesOf = (row: CatalogueStock | undefined): [string, string][] =>
  (row?.sizes ?? []).map((s) => [s.size, `${s.size} · ${boreWords(s.bore_mm)}`]);

const order = ["yes", "limited", "no"];

/** Stock and size; what is not fit for air stands last and says why. */
export function StockAndSize({ made, change }: { made: Made; change: (made: Made) => void }) {
  const all = catalogue.value?.stocks ?? [];
  const row = stockRow(made.stock);
  if (all.length === 0) return <span class="soft">{words.loading}</span>;
  return (
    <>
      <label class="select stock">
        <span>{words.stock}</span>
        <select value={made.stock} onChange={(e) => change(takeStock(made, e.currentTarget.value))}>
          {order.map((fit) => (
            <optgroup key={fit} label={words.fit[fit] ?? fit}>
              {all
                .filter((s) => s.fit_for_air === fit)
                .map((s) => (
                  <option key={s.id} value={s.id}>
                    {s.words}
                  </option>
                ))}
            </optgroup>
          ))}
        </select>
      </label>
      <Choice
        label={words.size}
        value={made.size}
        rows={sizesOf(row)}
        change={(size) => change({ ...made, size })}
      />
    </>
  );
}

/** What is to be known of a stock before it is drawn with. */
export function StockCaution({ stock }: { stock: string }) {
  const row = stockRow(stock);
  if (!row || row.fit_for_air === "yes" || !row.why) return null;
  return (
    <p class={`tool-caution${row.fit_for_air === "no" ? " grave" : ""}`}>
      {words.notForAir(row.words, row.why)}
    </p>
  );
}

const listed = (of: Record<string, string>): [string, string][] => Object.entries(of);

/** What the next line is drawn of. */
export function LineOptions() {
  const now = kit.value;
  const set = (more: Partial<Made>) => {
    kit.value = { ...kit.value, ...more };
  };
  const sweeps = stockRow(now.stock)?.corners === "sweep";
  return (
    <>
      <StockAndSize
        made={now}
        change={(made) => {
          kit.value = made;
        }}
      />
      <Choice
        label={words.role}
        value={now.role}
        rows={listed(words.roles)}
        change={(role) => set({ role })}
      />
      <Choice
        label={words.state}
        value={now.state}
        rows={listed(words.states)}
        change={(state) => set({ state })}
      />
      {sweeps && (
        <Choice
          label={words.corners}
          value={now.corners}
          rows={listed(words.cornersOf)}
          change={(corners) => set({ corners })}
        />
      )}
      <StockCaution stock={now.stock} />
    </>
  );
}
