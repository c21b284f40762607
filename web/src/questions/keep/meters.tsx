import { signal } from "@preact/signals";
import type { Keep } from "../../api/types.gen.ts";
import { Chosen, Field } from "../../paint/field.tsx";
import { celsiusOf } from "../../state/gauge.ts";
import { note } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { workWords as words } from "../../words/work.ts";

type Sort = "hours" | "water" | "dew";

const sort = signal<Sort>("hours");
const thing = signal("");
const figure = signal("");
const minutes = signal("");

const litres: Record<string, number> = { l: 1, ml: 0.001, gal: 3.785412, qt: 0.946353, oz: 0.0295735 };

/** A plain figure, with a comma or a point; nothing where it is none or below zero. */
export function numberOf(text: string): number | null {
  const x = Number(text.trim().replace(",", "."));
  return text.trim() !== "" && Number.isFinite(x) && x >= 0 ? x : null;
}

/** A volume of water in litres; a bare figure counts in litres, or in ounces where people have those. */
export function litresOf(text: string, system: string): number | null {
  const m = /^\s*(\d+(?:[.,]\d+)?)\s*([a-z]*)\s*$/i.exec(text);
  const by = litres[(m?.[2] || (system === "us" ? "oz" : "l")).toLowerCase()];
  return m?.[1] && by ? Number(m[1].replace(",", ".")) * by : null;
}

interface Place {
  id: string;
  name: string;
}

/** Where each sort is read: meters of compressors, drains, and wherever a hygrometer is put. */
function places(of: Keep, s: Sort): Place[] {
  if (s === "hours") return of.running.map((r) => ({ id: r.thing, name: r.name }));
  const word = s === "water" ? /^(watch )?drain / : /^(dryer|element|coupler) /;
  const seen = new Map<string, Place>();
  for (const t of of.tasks) if (word.test(t.task)) seen.set(t.thing, { id: t.thing, name: t.name });
  return [...seen.values()];
}

function readingOf(s: Sort): object | null {
  if (s === "dew") {
    const dew = celsiusOf(figure.value, jobUnits.value);
    return dew === null ? null : { pressure_dew_point_C: Math.round(dew * 100) / 100 };
  }
  if (s === "hours") {
    const hours = numberOf(figure.value);
    return hours === null ? null : { running_h: hours };
  }
  const water = litresOf(figure.value, jobUnits.value);
  const time = numberOf(minutes.value);
  return water === null
    ? null
    : { water_L: Math.round(water * 1e4) / 1e4, ...(time ? { time_s: time * 3600 } : {}) };
}

/** What is read at the plant: hours of a meter, water out of a drain, the dew point. */
export function Meters({ of }: { of: Keep }) {
  const s = sort.value;
  const list = places(of, s);
  const at = list.find((p) => p.id === thing.value) ?? list[0];
  const reading = readingOf(s);
  return (
    <section aria-label={words.meters}>
      <h3 id="keep-meters" tabIndex={-1}>
        {words.meters}
      </h3>
      <form
        class="reading-form"
        onSubmit={(e) => {
          e.preventDefault();
          if (!at || !reading) return;
          note({ kind: "reading", about: [at.id], reading });
          figure.value = "";
        }}
      >
        <Chosen
          label={words.meterSort}
          value={s}
          options={(["hours", "water", "dew"] as const).map((k) => [k, words.meterSorts[k]] as const)}
          put={(k) => {
            sort.value = k as Sort;
            figure.value = "";
          }}
        />
        <Chosen
          label={words.meterAt}
          value={at?.id ?? ""}
          options={list.map((p) => [p.id, p.name] as const)}
          put={(id) => {
            thing.value = id;
          }}
        />
        <Field label={words.meterFigures[s]} of={figure} hint={words.meterHints[s]} />
        {s === "water" && <Field label={words.meterTime} of={minutes} hint={words.meterTimeHint} />}
        <button type="submit" class="go strong" disabled={!at || !reading}>
          {words.writeIt}
        </button>
      </form>
      <ul class="made">
        {of.read.map((r) => (
          <li key={r.record}>
            {r.words} <span class="soft">{r.when}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
