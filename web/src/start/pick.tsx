import { useId } from "preact/hooks";

type Rows<T extends string> = readonly (readonly [T, string])[];

/** One of several words, from a list that unfolds. */
export function Pick<T extends string>(p: {
  label: string;
  value: T;
  rows: Rows<T>;
  took: (word: T) => void;
}) {
  const id = useId();
  return (
    <div class="measure">
      <label for={id}>{p.label}</label>
      <select id={id} value={p.value} onChange={(e) => p.took(e.currentTarget.value as T)}>
        {p.rows.map(([word, words]) => (
          <option key={word} value={word}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

/** One of a few words, side by side. */
export function Choice<T extends string>(p: {
  legend: string;
  name: string;
  value: T;
  rows: Rows<T>;
  took: (word: T) => void;
  quiet?: boolean;
}) {
  return (
    <fieldset class="segments">
      <legend class={p.quiet ? "hidden" : ""}>{p.legend}</legend>
      {p.rows.map(([word, words]) => (
        <label key={word}>
          <input type="radio" name={p.name} checked={p.value === word} onChange={() => p.took(word)} />
          <span>{words}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** One of a few sentences, one below the other; what belongs to the one taken stands under it. */
export function Sentences<T extends string>(p: {
  legend: string;
  name: string;
  value: T;
  rows: readonly { word: T; words: string; under?: preact.ComponentChildren }[];
  took: (word: T) => void;
}) {
  return (
    <fieldset class="five-choice">
      <legend class="hidden">{p.legend}</legend>
      {p.rows.map((r) => (
        <div key={r.word} class={p.value === r.word ? "taken" : ""}>
          <label class="five-option">
            <input type="radio" name={p.name} checked={p.value === r.word} onChange={() => p.took(r.word)} />
            <span>{r.words}</span>
          </label>
          {p.value === r.word && r.under && <div class="five-under">{r.under}</div>}
        </div>
      ))}
    </fieldset>
  );
}
