import { useEffect, useId } from "preact/hooks";
import { against, alternative } from "../../state/ask.ts";
import { byDay, fetchSteps, followSteps, more, steps } from "../../state/history.ts";
import { revision } from "../../state/live.ts";
import { quoteWords as words } from "../../words/quote.ts";
import { clock } from "../../words/when.ts";

/** Which earlier state the variation is told from: steps by day, newest first. */
export function Since() {
  const id = useId();
  useEffect(followSteps, []);
  const now = new Date();
  // Alternatives have no history of their own: they are told from the job, as it stands or stood.
  const rows = steps.value.filter((s) => s.revision < revision.value);
  return (
    <p class="since">
      <label for={id}>{words.change}</label>
      <select
        id={id}
        value={against.value}
        onChange={(e) => {
          against.value = e.currentTarget.value;
        }}
      >
        <option value="">{words.nothing}</option>
        {alternative.value !== "" && <option value={String(revision.value)}>{words.asItStands}</option>}
        {byDay(rows, now).map(([day, list]) => (
          <optgroup key={day} label={day}>
            {list.map((s) => (
              <option key={s.revision} value={String(s.revision)}>
                {clock(new Date(s.when))}, {s.words}
              </option>
            ))}
          </optgroup>
        ))}
        <option value="0">{words.beginning}</option>
      </select>
      {more.value && (
        <button
          type="button"
          class="plain"
          onClick={() => void fetchSteps(steps.value.at(-1)?.revision ?? 0)}
        >
          {words.older}
        </button>
      )}
    </p>
  );
}
