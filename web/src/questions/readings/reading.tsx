import { type Signal, signal, useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import type { JobOutlet } from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { jobId } from "../../state/address.ts";
import { chosen, panel, question, units } from "../../state/ask.ts";
import { far, gaugeOf, gaugeText, usual } from "../../state/gauge.ts";
import { done } from "../../state/hints.ts";
import { outletRows, pieces, thingOf } from "../../state/live.ts";
import { note } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { readingWords as say } from "../../words/panels.ts";
import { Back } from "../back.tsx";
import { Meant } from "../meant.tsx";
import { Held } from "../work.tsx";

const shows = signal("");
const receiver = signal("");

/** Back to the list of outlets where one came from there, and not to the way to the outlet. */
function leave(): void {
  panel.value = "";
  if (question.value === "prove") chosen.value = "";
}

/** A pressure off a gauge, typed in any unit and told back; understood here, for the program may be out of reach. */
function Gauge({ label, of, system }: { label: string; of: Signal<string>; system: string }) {
  const kPa = gaugeOf(of.value, system);
  return (
    <>
      <Field label={label} of={of} hint={say.hint} mode="text" />
      <p class="measure-echo" aria-live="polite">
        {of.value.trim() === "" ? "" : kPa === null ? say.unread : gaugeText(kPa, system)}
      </p>
      {kPa !== null && far(kPa) && (
        <p class="waits">
          {say.far}{" "}
          <Meant
            text={of.value}
            least={usual.least}
            most={usual.most}
            word={say.meant}
            put={(text) => {
              of.value = text;
            }}
          />
        </p>
      )}
    </>
  );
}

/** What a gauge showed at an outlet, into the job's records: the program holds it against the drawing. */
export function Reading() {
  const id = useId();
  const rows = outletRows.value;
  const at = useSignal(chosen.peek().startsWith("outlet.") ? chosen.peek() : (rows[0]?.id ?? ""));
  const still = useSignal<ReadonlySet<string>>(new Set());
  const told = useSignal(false);
  if (rows.length === 0)
    return (
      <section class="reading">
        <h2>{say.title}</h2>
        <p class="soft">{say.noOutlet}</p>
      </section>
    );
  const tools = thingOf<JobOutlet>(at.value)?.tools ?? [];
  const system = units.value || jobUnits.value;
  const kPa = gaugeOf(shows.value, system);
  const atReceiver = gaugeOf(receiver.value, system);
  // Nobody enters half of it by mistake: what stands in a field is a pressure, or the field is empty.
  const good = kPa !== null && (receiver.value.trim() === "" || atReceiver !== null);
  const enter = () => {
    if (kPa === null || !good) return;
    const running = tools.filter((t) => !still.value.has(t)).map((tool) => ({ tool, outlet: at.value }));
    note({
      kind: "reading",
      about: [at.value],
      reading: {
        pressure_kPa_g: Math.round(kPa * 1000) / 1000,
        ...(atReceiver === null ? {} : { receiver_kPa_g: Math.round(atReceiver * 1000) / 1000 }),
        ...(running.length > 0 ? { running } : {}),
      },
    });
    shows.value = "";
    receiver.value = "";
    told.value = true;
    done(`readings ${jobId}`);
  };
  return (
    <section class="reading work">
      <Back leave={leave} />
      <h2>{say.title}</h2>
      <Held />
      <p>{say.lead}</p>
      <form
        class="reading-form"
        onSubmit={(e) => {
          e.preventDefault();
          enter();
        }}
      >
        <div class="measure">
          <label for={id}>{say.outlet}</label>
          <select
            id={id}
            value={at.value}
            onChange={(e) => {
              at.value = e.currentTarget.value;
              still.value = new Set();
            }}
          >
            {rows.map((o) => (
              <option key={o.id} value={o.id}>
                {[o.mark, o.name].filter(Boolean).join(", ")}
              </option>
            ))}
          </select>
        </div>
        <Gauge label={say.pressure} of={shows} system={system} />
        <Gauge label={say.receiver} of={receiver} system={system} />
        <fieldset>
          <legend class="soft">{say.running}</legend>
          {tools.length === 0 && <span>{say.nothing}</span>}
          {tools.map((t) => (
            <label key={t}>
              <input
                type="checkbox"
                checked={!still.value.has(t)}
                onChange={() => {
                  const next = new Set(still.value);
                  if (!next.delete(t)) next.add(t);
                  still.value = next;
                }}
              />
              <span>{pieces.value.get(t)?.words ?? t}</span>
            </label>
          ))}
        </fieldset>
        <button type="submit" class="go strong" disabled={!good}>
          {say.add}
        </button>
        <p class="soft" role="status">
          {told.value && shows.value === "" ? say.added : ""}
        </p>
      </form>
    </section>
  );
}
