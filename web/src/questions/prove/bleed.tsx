import { signal } from "@preact/signals";
import { Field } from "../../paint/field.tsx";
import { gaugeOf } from "../../state/gauge.ts";
import { kept } from "../../state/kept.ts";
import { note } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { workWords as words } from "../../words/work.ts";

interface Begun {
  at: number; // ms
  kPa: number;
}

/** The first of the two readings. */
const begun = kept<Begun | null>("bleed", null, (had) => had !== null && had.kPa > 0);
const pressure = signal("");

const round = (kPa: number): number => Math.round(kPa * 1000) / 1000;

/** The leak by the fall of the receiver with the compressor off: two readings of its gauge and the time between. */
export function Bleed() {
  const first = begun.value;
  const kPa = gaugeOf(pressure.value, jobUnits.value);
  const rises = first !== null && kPa !== null && kPa > first.kPa;
  const read = () => {
    if (kPa === null || rises) return;
    if (first === null) {
      begun.value = { at: Date.now(), kPa: round(kPa) };
    } else {
      const time = Math.max(1, Math.round((Date.now() - first.at) / 1000));
      note({
        kind: "test",
        test: {
          way: "bleed-down",
          samples: [
            { time_s: 0, pressure_kPa_g: first.kPa },
            { time_s: time, pressure_kPa_g: round(kPa) },
          ],
        },
      });
      begun.value = null;
    }
    pressure.value = "";
  };
  return (
    <section class="timing" aria-label={words.bleed}>
      <h3 id="prove-bleed" tabIndex={-1}>
        {words.bleed}
      </h3>
      <p class="soft">{words.bleedLead}</p>
      <form
        class="reading-form"
        onSubmit={(e) => {
          e.preventDefault();
          read();
        }}
      >
        <Field
          label={first === null ? words.bleedStart : words.bleedEnd}
          of={pressure}
          hint={words.decayHint}
        />
        {rises && (
          <p class="waits" role="status">
            {words.bleedRises}
          </p>
        )}
        <button type="submit" class="go strong" disabled={kPa === null || rises}>
          {first === null ? words.bleedBegin : words.record}
        </button>
        {first !== null && (
          <button
            type="button"
            onClick={() => {
              begun.value = null;
            }}
          >
            {words.scrap}
          </button>
        )}
      </form>
    </section>
  );
}
