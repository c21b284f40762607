import { useSignal } from "@preact/signals";
import type { JobInterval, ScreenTaskRow } from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { step } from "../../state/post.ts";
import { workWords as words } from "../../words/work.ts";
import { numberOf } from "./meters.tsx";
import { changed } from "./own.ts";

const set = (value: JobInterval[]) =>
  step({ edit: "set", key: "rules.upkeep", value: value.length > 0 ? value : null });

/** How often something is done here: changed by who looks after the shop. */
export function Interval({ of, own }: { of: ScreenTaskRow; own: readonly JobInterval[] }) {
  const days = useSignal(`${of.days}`);
  const hours = useSignal(of.hours > 0 ? `${of.hours}` : "");
  const told = useSignal("");
  const d = numberOf(days.value);
  const h = numberOf(hours.value);
  const good =
    d !== null && d >= 1 && Number.isInteger(d) && (hours.value.trim() === "" || (h !== null && h > 0));
  const write = async (to: JobInterval | null) => {
    const done = await set(changed(own, of.task, to));
    told.value = done.done ? "" : done.why;
  };
  return (
    <details class="log-entry">
      <summary>{words.interval}</summary>
      <Field label={words.everyDays} of={days} mode="numeric" />
      {of.by_hours && <Field label={words.everyHours} of={hours} />}
      <p class="take">
        <button
          type="button"
          class="go"
          disabled={!good}
          onClick={() => void write({ task: of.task, every_d: d ?? 1, ...(h ? { every_running_h: h } : {}) })}
        >
          {words.setInterval}
        </button>
        {of.own && (
          <button type="button" onClick={() => void write(null)}>
            {words.usual}
          </button>
        )}
      </p>
      {told.value !== "" && (
        <p class="trouble" role="alert">
          {told.value}
        </p>
      )}
    </details>
  );
}
