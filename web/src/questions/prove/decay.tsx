import { effect, signal } from "@preact/signals";
import { send } from "../../api/client.ts";
import type { Decay as Answer, JobTest, ScreenSectionRow } from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { Chosen, Field } from "../../paint/field.tsx";
import { jobId, jobPath, query } from "../../state/address.ts";
import { inUnits } from "../../state/data.ts";
import { celsiusOf, gaugeOf } from "../../state/gauge.ts";
import { note } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { workWords as words } from "../../words/work.ts";

interface Taken {
  section: string;
  /** When the first was read, ms; 0 before it. */
  begun: number;
  samples: NonNullable<JobTest["samples"]>;
}

const key = `dropleg.decay.${jobId}`;

function kept(): Taken {
  try {
    const had = JSON.parse(localStorage.getItem(key) ?? "null") as Taken | null;
    if (had?.samples) return had;
  } catch {
    // nothing of use was kept
  }
  return { section: "", begun: 0, samples: [] };
}

const taken = signal<Taken>(kept());
const pressure = signal("");
const temperature = signal("");
const said = signal<Answer | null>(null);

effect(() => {
  const now = taken.value;
  try {
    localStorage.setItem(key, JSON.stringify(now));
  } catch {
    // the readings last as long as the page
  }
});

const testOf = (t: Taken): JobTest => ({ way: "decay", section: t.section, samples: t.samples });

async function ask(): Promise<void> {
  const now = taken.value;
  if (now.samples.length === 0) return;
  try {
    said.value = await send<Answer>("POST", jobPath(`/decay${query(...inUnits())}`), testOf(now));
  } catch {
    // Away: the readings are kept, and the verdict comes with the line.
  }
}

/** Readings of a shut section, one after the other, with what they say so far. */
export function DecayEntry({ sections }: { sections: readonly ScreenSectionRow[] }) {
  const now = taken.value;
  const system = jobUnits.value;
  const at = sections.find((s) => s.id === now.section) ?? sections[0];
  const kPa = gaugeOf(pressure.value, system);
  const expected = (at?.expected_Pa_g ?? 0) / 1000;
  const strange = kPa !== null && expected > 0 && (kPa > expected * 3 || kPa < expected / 4);
  const read = () => {
    if (kPa === null || !at) return;
    const begun = now.begun || Date.now();
    const temp = celsiusOf(temperature.value, system);
    const sample = {
      time_s: now.samples.length === 0 ? 0 : Math.max(1, Math.round((Date.now() - begun) / 1000)),
      pressure_kPa_g: Math.round(kPa * 1000) / 1000,
      ...(temp === null ? {} : { temperature_C: Math.round(temp * 100) / 100 }),
    };
    taken.value = { section: at.id, begun, samples: [...now.samples, sample] };
    pressure.value = "";
    void ask();
  };
  if (now.samples.length > 0 && !said.value) void ask();
  return (
    <section class="decay" aria-label={words.decay}>
      <h3>{words.decay}</h3>
      <p class="soft">{words.decayLead}</p>
      <form
        class="reading-form"
        onSubmit={(e) => {
          e.preventDefault();
          read();
        }}
      >
        <Chosen
          label={words.section}
          value={at?.id ?? ""}
          disabled={now.samples.length > 0}
          options={sections.map((s) => [s.id, s.name] as const)}
          put={(id) => {
            taken.value = { ...now, section: id };
          }}
        />
        {at && at.hold !== "" && <p class="soft">{at.hold}</p>}
        <Field label={words.pressure} of={pressure} hint={words.decayHint} />
        {strange && <p class="waits" role="status">{`${pressure.value}: bar, psi?`}</p>}
        <Field label={words.temperature} of={temperature} hint={words.tempHint} />
        <button type="submit" class="go strong" disabled={kPa === null}>
          {words.read}
        </button>
      </form>
      {now.samples.length > 0 && (
        <ol class="readings">
          {now.samples.map((s, i) => (
            <li key={`${i} ${s.time_s}`}>
              {Math.round(s.time_s / 6) / 10} {words.minutes}:{" "}
              {system === "us"
                ? `${(s.pressure_kPa_g / 6.894757).toFixed(1)} psi`
                : `${(s.pressure_kPa_g / 100).toFixed(2)} bar`}
              {s.temperature_C !== undefined && `, ${s.temperature_C} °C`}
            </li>
          ))}
        </ol>
      )}
      {said.value && now.samples.length > 0 && (
        <div class={`verdict ${said.value.state}`}>
          <p class="big-figure">{said.value.figure}</p>
          <p>{said.value.words}</p>
          {said.value.doubts.map((d) => (
            <p key={d} class="waits">
              {d}
            </p>
          ))}
          <Chart scene={said.value.scene} label={said.value.words} lit={new Set()} />
        </div>
      )}
      {now.samples.length > 0 && (
        <p class="take">
          <button
            type="button"
            class="go"
            disabled={now.samples.length < 2}
            onClick={() => {
              note({ kind: "test", test: testOf(now) });
              taken.value = { section: now.section, begun: 0, samples: [] };
              said.value = null;
            }}
          >
            {words.record}
          </button>
          <button
            type="button"
            onClick={() => {
              taken.value = { section: now.section, begun: 0, samples: [] };
              said.value = null;
            }}
          >
            {words.scrap}
          </button>
        </p>
      )}
    </section>
  );
}
