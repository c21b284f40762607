import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type {
  CalibrateBody,
  ScreenCalibratedRow,
  ScreenCalibration,
  ScreenLookRow,
} from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { Verdict } from "../../paint/mark.tsx";
import { light } from "../../state/ask.ts";
import { shown } from "../../state/live.ts";
import { step } from "../../state/post.ts";
import { quantity } from "../../state/unit.ts";
import { calibrateWords as say } from "../../words/calibrate.ts";
import { asking } from "../propose/ask.ts";
import { Progress } from "../propose/proposal.tsx";

const asked = asking<CalibrateBody, ScreenCalibration>("/calibration");

const gauge = signal("");
const since = signal("");

/** The wish as it is typed; a gauge that cannot be read is told. */
async function ask(): Promise<void> {
  try {
    const good = gauge.value.trim() === "" ? 0 : (await quantity("pressure-difference", gauge.value)).si;
    await asked.ask({ gauge_Pa: good, since: since.value });
  } catch (e) {
    asked.fail(e);
  }
}

async function take(c: ScreenCalibration): Promise<void> {
  if (!c.step) return;
  const done = await step(c.step);
  asked.told.value = done.done ? say.taken : done.why;
  if (done.done) asked.found.value = null;
}

function Figure({ f }: { f: ScreenCalibratedRow }) {
  return (
    <li
      class={f.told ? "told" : "soft"}
      onPointerEnter={() => light(...f.things)}
      onPointerLeave={() => light()}
    >
      <h4>{f.name}</h4>
      {f.told ? (
        <p>
          {f.before} → <strong>{f.now}</strong>
          <span class="soft">{say.range(f.low, f.high)}</span>
        </p>
      ) : (
        <p>{say.stays(f.before, f.low, f.high)}</p>
      )}
      {f.words !== "" && <p class={f.told ? "waits" : ""}>{f.words}</p>}
    </li>
  );
}

function Looks({ rows }: { rows: readonly ScreenLookRow[] }) {
  return (
    <details>
      <summary>{say.looks(rows.length)}</summary>
      <ul class="calibrate-looks">
        {rows.map((l) => (
          <li key={`${l.name} ${l.read} ${l.now}`}>
            {l.name}: <strong>{l.read}</strong>
            <span class="soft">{l.before === "" ? say.unanswered : say.off(l.before, l.now)}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Found({ c }: { c: ScreenCalibration }) {
  return (
    <>
      <section class="found-card" aria-live="polite">
        <h3>
          <Verdict mark={say.marks[c.state] ?? "unknown"} /> {say.verdicts[c.state]}
        </h3>
        <p>{c.sentence}</p>
      </section>
      <ul class="calibrate-figures" aria-label={say.figures}>
        {c.figures.map((f) => (
          <Figure key={f.name} f={f} />
        ))}
      </ul>
      {c.looks.length > 0 && <Looks rows={c.looks} />}
      {c.unused.map((u) => (
        <p key={u} class="waits">
          {say.unused}: {u}
        </p>
      ))}
      {c.step && (
        <>
          <p>{c.against.length > 0 ? say.changes(c.against) : say.same}</p>
          <button type="button" class="go strong" onClick={() => void take(c)}>
            {say.take}
          </button>
        </>
      )}
    </>
  );
}

/** The job set by its readings: what they tell of roughness, filters and leaks, to be taken over or left. */
export function Calibrate() {
  useEffect(() => asked.cancel, []);
  const found = asked.found.value;
  const old = found !== null && found.revision !== shown.value;
  return (
    <section class="calibrate" aria-labelledby="calibrate-title">
      <h3 id="calibrate-title">{say.title}</h3>
      <p class="soft">{say.lead}</p>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void ask();
        }}
      >
        <details>
          <summary>{say.instruments}</summary>
          <Field label={say.gauge} of={gauge} hint={say.gaugeHint} mode="text" />
          <label class="measure">
            <span>{say.since}</span>
            <input
              type="date"
              value={since.value}
              onInput={(e) => {
                since.value = e.currentTarget.value;
              }}
            />
          </label>
        </details>
        <button type="submit" class="go" disabled={asked.under.value !== null}>
          {say.ask}
        </button>
      </form>
      <Progress of={asked} />
      {asked.trouble.value !== "" && (
        <p class="trouble" role="alert">
          {asked.trouble.value}
        </p>
      )}
      {asked.told.value !== "" && <p role="status">{asked.told.value}</p>}
      {old && <p class="trouble">{say.older}</p>}
      {found && !old && <Found c={found.answer} />}
    </section>
  );
}
