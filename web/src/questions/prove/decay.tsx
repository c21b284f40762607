import { signal } from "@preact/signals";
import { send } from "../../api/client.ts";
import type { Decay as Answer, JobTest, ScreenSectionRow } from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { Chosen, Field } from "../../paint/field.tsx";
import { jobPath, query } from "../../state/address.ts";
import { inUnits } from "../../state/data.ts";
import { celsiusOf, gaugeOf, gaugeText, kelvinOf } from "../../state/gauge.ts";
import { kept } from "../../state/kept.ts";
import { note } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { workWords as words } from "../../words/work.ts";
import { Meant } from "../meant.tsx";

interface Taken {
  section: string;
  /** When the first was read, ms; 0 before it. */
  begun: number;
  samples: NonNullable<JobTest["samples"]>;
}

const taken = kept<Taken>("decay", { section: "", begun: 0, samples: [] }, (had) =>
  Array.isArray(had.samples),
);
const pressure = signal("");
const temperature = signal("");
/** What a reading of each is good to, as it stands on the dial; left out, what is usual. */
const gauge = kept("gauge", "", (had) => typeof had === "string");
const thermometer = kept("thermometer", "", (had) => typeof had === "string");
const said = signal<Answer | null>(null);

/** What stands beside an instrument and cannot be read; no verdict rests on it or on a guess. */
const unreadGauge = () => gauge.value.trim() !== "" && !((gaugeOf(gauge.value, jobUnits.value) ?? 0) > 0);
const unreadThermometer = () =>
  thermometer.value.trim() !== "" && !((kelvinOf(thermometer.value, jobUnits.value) ?? 0) > 0);

function testOf(t: Taken): JobTest {
  const kPa = gaugeOf(gauge.value, jobUnits.value);
  const kelvin = kelvinOf(thermometer.value, jobUnits.value);
  return {
    way: "decay",
    section: t.section,
    samples: t.samples,
    ...(kPa !== null && kPa > 0 ? { gauge_kPa: Math.round(kPa * 1000) / 1000 } : {}),
    ...(kelvin !== null && kelvin > 0 ? { thermometer_K: Math.round(kelvin * 1000) / 1000 } : {}),
  };
}

async function ask(): Promise<void> {
  const now = taken.value;
  if (now.samples.length === 0) return;
  if (unreadGauge() || unreadThermometer()) {
    said.value = null;
    return;
  }
  try {
    said.value = await send<Answer>("POST", jobPath(`/decay${query(...inUnits())}`), testOf(now));
  } catch {
    // Away: the readings are kept, and the verdict comes with the line.
  }
}

/** One reading typed wrong does not cost the hours of a test. */
function lastAway(): void {
  const { section, begun, samples } = taken.value;
  const left = samples.slice(0, -1);
  taken.value = { section, begun: left.length > 0 ? begun : 0, samples: left };
  said.value = null;
}

/** What gauge and thermometer are good to: it decides how long a test has to last. */
function Instruments() {
  const change = () => void ask();
  return (
    <details class="log-entry" open={unreadGauge() || unreadThermometer()} onChange={change}>
      <summary>{words.instruments}</summary>
      <Field label={words.gaugeGoodTo} of={gauge} hint={words.gaugeHint} />
      <Field label={words.thermometerGoodTo} of={thermometer} hint={words.thermometerHint} />
      <p class="measure-echo" role="status">
        {unreadGauge() ? words.gaugeUnread : unreadThermometer() ? words.thermometerUnread : ""}
      </p>
    </details>
  );
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
  const unread = unreadGauge() || unreadThermometer();
  if (now.samples.length > 0 && !said.value && !unread) void ask();
  return (
    <section class="decay" aria-label={words.decay}>
      <h3 id="prove-decay" tabIndex={-1}>
        {words.decay}
      </h3>
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
        {strange && (
          <p class="waits" role="status">
            {words.strangeHere} {gaugeText(expected, system)}.{" "}
            <Meant
              text={pressure.value}
              least={expected / 2}
              most={expected * 2}
              word={words.meant}
              put={(text) => {
                pressure.value = text;
              }}
            />
          </p>
        )}
        <Field label={words.temperature} of={temperature} hint={words.tempHint} />
        <Instruments />
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
            disabled={now.samples.length < 2 || unread}
            onClick={() => {
              note({ kind: "test", test: testOf(now) });
              taken.value = { section: now.section, begun: 0, samples: [] };
              said.value = null;
            }}
          >
            {words.record}
          </button>
          <button type="button" onClick={lastAway}>
            {words.takeBackReading}
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
