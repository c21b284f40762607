import { useSignal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import type { ScreenField } from "../../api/types.gen.ts";
import { step } from "../../state/post.ts";
import { inspectWords as words } from "../../words/inspect.ts";
import { From } from "../facts/facts.tsx";
import { toggled, understand, type Wrong, wrongOf } from "./stating.ts";

const pause = 150; // ms after the last letter, until the program is asked what it means

/** What stands under a field: what was understood or why not, what holds while it is empty, what may go wrong. */
function Below({
  field,
  echo,
  wrong,
  id,
  meant,
}: {
  field: ScreenField;
  echo: string;
  wrong: Wrong | null;
  id: string;
  meant: (text: string) => void;
}) {
  const empty = field.value === "" && echo === "" && !wrong;
  const figure = field.kind === "quantity" || field.kind === "number";
  const tellsEmpty = empty && !field.fixed && (field.default !== "" || (figure && !field.needed));
  return (
    <div class="below" id={id}>
      <p class={wrong ? "wrong-field" : "echo"} role={wrong ? "alert" : "status"}>
        {wrong ? wrong.words : echo !== "" ? `${words.means} ${echo}` : ""}
      </p>
      {wrong && wrong.nearest !== "" && (
        <button type="button" class="meant" onClick={() => meant(wrong.nearest)}>
          {words.meant} <strong>{wrong.nearest}</strong>
        </button>
      )}
      {tellsEmpty && (
        <p class="soft">
          {words.empty} {field.default || words.unknown}
        </p>
      )}
      {empty && field.from && <From origin={field.from} of={field.words} />}
      {field.doc !== "" && <p class="soft doc">{field.doc}</p>}
      {field.caution && (
        <p class="field-caution">
          <strong>{words.caution}</strong> {field.caution}
        </p>
      )}
    </div>
  );
}

/** One value that can be stated. `hold` takes what is typed instead of posting it, for values that come together. */
export function FieldRow({
  field,
  revision,
  hold,
}: {
  field: ScreenField;
  revision: number;
  hold?: (text: string) => void;
}) {
  const id = useId();
  const text = useSignal<string | null>(null); // as it is being typed; null shows what stands there
  const echo = useSignal("");
  const wrong = useSignal<Wrong | null>(null);
  const sent = useSignal(false);
  const busy = useRef(false); // Enter and leaving the field are one wish
  useEffect(() => {
    if (!sent.value) return;
    sent.value = false;
    text.value = null;
    echo.value = "";
  }, [revision, field.value]);

  useEffect(() => {
    const now = text.value;
    if (now === null || now === field.value || sent.value) return;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      understand(field, now, stop.signal).then(
        (u) => {
          wrong.value = u.wrong;
          echo.value = u.typed && now !== u.typed.words ? u.typed.words : "";
        },
        () => {}, // the line is down: said elsewhere
      );
    }, pause);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [text.value]);

  const letBe = () => {
    text.value = null;
    echo.value = "";
    wrong.value = null;
  };
  const post = async (now: string) => {
    const u = await understand(field, now).catch(() => null);
    if (!u) return;
    wrong.value = u.wrong;
    if (!u.typed) return;
    if (u.typed.same) return letBe();
    sent.value = true;
    const outcome = await step(u.typed.step as object);
    if (outcome.done) return;
    sent.value = false;
    wrong.value = wrongOf(outcome.why, outcome.problems);
  };
  const state = async (now: string) => {
    if (hold || busy.current) return;
    if (now === field.value) return letBe();
    busy.current = true;
    await post(now);
    busy.current = false;
  };
  const type = (now: string) => {
    text.value = now;
    hold?.(now);
  };
  const pick = (now: string) => {
    type(now);
    void state(now);
  };
  return (
    <div class={`field ${field.kind}${wrong.value ? " is-wrong" : ""}`}>
      <Control
        field={field}
        id={id}
        now={text.value ?? field.value}
        wrong={wrong.value !== null}
        type={type}
        pick={pick}
        state={state}
        letBe={letBe}
      />
      <Below field={field} echo={echo.value} wrong={wrong.value} id={`${id}-below`} meant={pick} />
    </div>
  );
}

interface Handed {
  field: ScreenField;
  id: string;
  now: string;
  wrong: boolean;
  type(text: string): void;
  pick(text: string): void;
  state(text: string): Promise<void>;
  letBe(): void;
}

/** The control that a kind of value asks for. */
function Control(h: Handed) {
  switch (h.field.kind) {
    case "flag":
      return <Flag {...h} />;
    case "choice":
      return <Pick {...h} />;
    case "several":
      return <Several {...h} />;
    default:
      return <Written {...h} />;
  }
}

function Flag({ field, id, now, pick }: Handed) {
  return (
    <label class="field-flag">
      <input
        type="checkbox"
        checked={now === "yes"}
        disabled={field.fixed}
        aria-describedby={`${id}-below`}
        onChange={(e) => pick(e.currentTarget.checked ? "yes" : "no")}
      />
      <span>{field.words}</span>
    </label>
  );
}

function Pick({ field, id, now, wrong, pick }: Handed) {
  return (
    <label class="field-row">
      <span>{field.words}</span>
      <select
        value={now}
        disabled={field.fixed}
        aria-invalid={wrong}
        aria-describedby={`${id}-below`}
        onChange={(e) => pick(e.currentTarget.value)}
      >
        {(!field.needed || now === "") && <option value="">{words.none}</option>}
        {field.choices.map((c) => (
          <option key={c.id} value={c.id}>
            {c.note ? `${c.words}, ${c.note}` : c.words}
          </option>
        ))}
      </select>
    </label>
  );
}

function Several({ field, id, now, pick }: Handed) {
  const chosen = now === "" ? [] : now.split(",");
  return (
    <details class="field-several">
      <summary aria-describedby={`${id}-below`}>
        <span>{field.words}</span>
        <span class="fact-figure">{words.several(chosen.length)}</span>
      </summary>
      <fieldset>
        <legend class="hidden">{field.words}</legend>
        {field.choices.map((c) => (
          <label key={c.id} class="field-flag">
            <input
              type="checkbox"
              checked={chosen.includes(c.id)}
              disabled={field.fixed}
              onChange={(e) => pick(toggled(chosen, c.id, e.currentTarget.checked))}
            />
            <span>{c.note ? `${c.words}, ${c.note}` : c.words}</span>
          </label>
        ))}
      </fieldset>
    </details>
  );
}

/** A text or a figure; figures in any unit, without one in the unit beside the field. */
function Written({ field, id, now, wrong, type, state, letBe }: Handed) {
  const long = field.kind === "text" && /(^|\.)(note|text)$/.test(field.key);
  const shared = {
    id: `${id}-in`,
    value: now,
    readOnly: field.fixed,
    "aria-invalid": wrong,
    "aria-describedby": `${id}-below`,
    onBlur: (e: Event) => void state((e.currentTarget as HTMLInputElement).value),
  };
  const keys = (e: KeyboardEvent) => {
    e.stopPropagation();
    if (e.key === "Escape") letBe();
    if (e.key === "Enter" && !long) void state((e.currentTarget as HTMLInputElement).value);
  };
  return (
    <label class={long ? "field-row long" : "field-row"} for={`${id}-in`}>
      <span>{field.words}</span>
      {long ? (
        <textarea rows={3} {...shared} onKeyDown={keys} onInput={(e) => type(e.currentTarget.value)} />
      ) : (
        <input
          type="text"
          inputMode="text"
          autocomplete="off"
          spellcheck={false}
          placeholder={field.unit}
          list={field.choices.length > 0 ? `${id}-list` : undefined}
          title={field.range === "" ? undefined : `${words.between} ${field.range}`}
          {...shared}
          onKeyDown={keys}
          onInput={(e) => type(e.currentTarget.value)}
        />
      )}
      {field.choices.length > 0 && (
        <datalist id={`${id}-list`}>
          {field.choices.map((c) => (
            <option key={c.id} value={c.id} />
          ))}
        </datalist>
      )}
    </label>
  );
}
