import { signal, useSignal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import { Refused } from "../api/client.ts";
import { quantity, withUnit } from "../state/unit.ts";
import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import { type Figure, mended, untouched } from "./answers.ts";
import { draft } from "./draft.ts";

const patience = 120; // ms after the last key

/** How many quantities are typed and not yet understood. */
export const asking = signal(0);

interface Props {
  label: string;
  kind: "length" | "gauge pressure" | "flow of free air" | "power" | "temperature" | "volume";
  figure: Figure;
  /** What stands in the field while nothing was typed; "" for an empty field. */
  usual?: string;
  hint?: string;
  changed: (f: Figure) => void;
  /** The field was left. */
  left?: () => void;
}

/** A quantity typed in any unit, told back as it was understood. What cannot be read says the nearest that can. */
export function Measure({ label, kind, figure, usual = "", hint, changed, left }: Props) {
  const id = useId();
  const fault = useSignal({ words: "", nearest: "" });
  const under = useRef<{ stop: () => void } | null>(null);
  const units = draft.value.units;
  const give = useRef(changed);
  give.current = changed;

  const ask = (text: string, wait: number) => {
    under.current?.stop();
    fault.value = { words: "", nearest: "" };
    if (text.trim() === "") {
      give.current({ text, si: null, echo: "" });
      return;
    }
    const ending = new AbortController();
    let going = true;
    const done = () => {
      if (going) asking.value--;
      going = false;
    };
    asking.value++;
    const timer = setTimeout(() => {
      quantity(kind, withUnit(kind, text, draft.value.units), ending.signal)
        .then(
          (q) => give.current({ text, si: q.si, echo: q.words }),
          (e: unknown) => {
            if (ending.signal.aborted) return;
            const problem = e instanceof Refused ? e.fault.problems?.[0] : undefined;
            fault.value = {
              words: problem ? `${say.wanted}: ${problem.want}` : e instanceof Error ? e.message : String(e),
              nearest: problem?.nearest ? mended(text, problem.nearest) : "",
            };
            give.current({ text, si: null, echo: "" });
          },
        )
        .finally(done);
    }, wait);
    under.current = {
      stop: () => {
        clearTimeout(timer);
        ending.abort();
        done();
      },
    };
  };
  // Figures are told back in other units when those are changed.
  useEffect(() => {
    if (figure.text) ask(figure.text, 0);
  }, [units]);

  const { words, nearest } = fault.value;
  const shown = figure.text ?? usual;
  return (
    <div class="measure">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="text"
        autocomplete="off"
        spellcheck={false}
        value={shown}
        placeholder={hint}
        aria-invalid={words !== ""}
        aria-describedby={`${id}-echo`}
        onInput={(e) => {
          const text = e.currentTarget.value;
          changed({ ...figure, text });
          ask(text, patience);
        }}
        onFocus={(e) => e.currentTarget.select()}
        onBlur={left}
      />
      <span id={`${id}-echo`} class={words === "" ? "measure-echo" : "measure-echo bad"} aria-live="polite">
        {words || (figure.text && figure.echo !== figure.text ? figure.echo : "")}
        {nearest !== "" && (
          <button
            type="button"
            class="linkish"
            onClick={() => {
              changed({ text: nearest, si: null, echo: "" });
              ask(nearest, 0);
            }}
          >
            {say.take(nearest)}
          </button>
        )}
      </span>
    </div>
  );
}

/** How far along a wall something stands: typed, or set by a click on the plan. */
export function Along(p: { along: number | null; hint?: string; changed: (along: number) => void }) {
  const typed = useSignal<Figure>(untouched);
  return (
    <Measure
      label={say.along}
      kind="length"
      figure={typed.value}
      usual={p.along === null ? "" : lengthIn(draft.value.units, p.along)}
      {...(p.hint ? { hint: p.hint } : {})}
      changed={(f) => {
        const news = f.si !== null && f.si !== typed.value.si;
        typed.value = f;
        if (news && f.si !== null) p.changed(f.si);
      }}
      left={() => {
        if (typed.value.si !== null) typed.value = untouched;
      }}
    />
  );
}
