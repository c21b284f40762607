import { signal } from "@preact/signals";
import type { Weak } from "../../api/types.gen.ts";
import { units } from "../../state/ask.ts";
import { weak } from "../../state/data.ts";
import { gaugeText } from "../../state/gauge.ts";
import { note, waiting } from "../../state/outbox.ts";
import { jobUnits } from "../../state/unit.ts";
import { weakWords as words } from "../../words/weak.ts";
import { Meant } from "../meant.tsx";
import { Choice } from "./choice.tsx";
import { type Draft, figuresFor, judge, keyOf, other, proposed, typed } from "./draft.ts";

/** When the watch was started, ms; 0 while it stands. */
const since = signal(0);

type Figure = "gauge" | "receiver" | "from" | "to" | "time" | "starts";

/** One figure, large enough for a thumb. */
function Big({
  of,
  name,
  label,
  hint = "",
  beside = "",
  put,
}: {
  of: Draft;
  name: Figure;
  label: string;
  hint?: string;
  beside?: string;
  put: (change: Partial<Draft>) => void;
}) {
  return (
    <label class="big-entry">
      <span>
        {label} {beside !== "" && <span class="soft">{beside}</span>}
      </span>
      <input
        type="text"
        inputMode="decimal"
        autocomplete="off"
        enterKeyHint="next"
        placeholder={hint}
        value={of[name]}
        onInput={(e) => put({ [name]: e.currentTarget.value })}
      />
    </label>
  );
}

function Watch({ put }: { put: (change: Partial<Draft>) => void }) {
  return (
    <button
      type="button"
      class="go"
      aria-pressed={since.value > 0}
      onClick={() => {
        if (since.value > 0) {
          put({ time: `${Math.max(1, Math.round((Date.now() - since.value) / 1000))} s` });
          since.value = 0;
        } else since.value = Date.now();
      }}
    >
      {since.value > 0 ? words.stop : words.start}
    </button>
  );
}

/** A figure in a strange unit: what was meant is one touch away. */
function Odd({
  of,
  draft,
  system,
  put,
}: {
  of: Weak;
  draft: Draft;
  system: string;
  put: (c: Partial<Draft>) => void;
}) {
  const { odd } = judge(draft, of, system);
  if (odd === "") return null;
  const name = odd === "receiver" ? "receiver" : "gauge";
  const most = (1.4 * of.cut_out_Pa_g) / 1000;
  const least = odd === "receiver" ? (0.25 * of.cut_in_Pa_g) / 1000 : 0;
  return (
    <div class="odd" role="alert">
      <p>
        {draft[name]}: {words.odd[odd]}
      </p>
      <Meant text={draft[name]} least={least} most={most} put={(t) => put({ [name]: t })} />
    </div>
  );
}

/** The reading proposed, or another, with its figures. */
export function Entry({ of }: { of: Weak }) {
  const system = units.value || jobUnits.value;
  const text = (pa: number) => gaugeText(pa / 1000, system);
  const next = of.answer?.next?.reading;
  const key = keyOf(next);
  const draft: Draft = other.value ?? { ...proposed(next, text), ...figuresFor(key, typed.value) };
  const put = (change: Partial<Draft>) => {
    if (other.value) other.value = { ...other.value, ...change };
    else typed.value = { of: key, figures: { ...figuresFor(key, typed.value), ...change } };
  };
  const judged = judge(draft, of, system);
  // The proposal stays until the answer to the last reading comes: it is not to be entered twice.
  const busy =
    other.value === null &&
    ((weak.awaited.value && weak.fault.value === "") || waiting.value.some((r) => r.kind === "reading"));
  const hint = system === "us" ? "85 psi" : "5.9 bar";
  const clock = draft.kind === "pump-up" || draft.kind === "fall";
  return (
    <form
      class="weak-entry"
      onSubmit={(e) => {
        e.preventDefault();
        if (!judged.reading || busy) return;
        note({
          kind: "reading",
          ...(judged.about.length > 0 ? { about: judged.about } : {}),
          reading: judged.reading,
        });
        other.value = null;
        typed.value = { of: "", figures: {} };
      }}
    >
      <Choice of={of} draft={draft} put={put} proposed={proposed(next, text)} />
      {draft.kind === "pressure" && (
        <div class="big-entries">
          <Big of={draft} name="gauge" label={words.gauge} hint={hint} put={put} />
          <Big
            of={draft}
            name="receiver"
            label={words.receiver}
            beside={words.sameMoment}
            hint={hint}
            put={put}
          />
        </div>
      )}
      {clock && (
        <div class="big-entries">
          <Big of={draft} name="from" label={words.from} hint={hint} put={put} />
          <Big of={draft} name="to" label={words.to} hint={hint} put={put} />
          <Big of={draft} name="time" label={words.time} hint={words.timeHint} put={put} />
          <Watch put={put} />
        </div>
      )}
      {draft.kind === "starts" && <Big of={draft} name="starts" label={words.starts} hint="6" put={put} />}
      <Odd of={of} draft={draft} system={system} put={put} />
      <button type="submit" class="go strong" disabled={!judged.reading || busy}>
        {words.enter}
      </button>
      {judged.wanted !== "" && <p class="soft">{judged.wanted}</p>}
    </form>
  );
}
