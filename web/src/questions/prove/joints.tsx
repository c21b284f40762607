import { signal } from "@preact/signals";
import type { ScreenJointRow } from "../../api/types.gen.ts";
import { jobPath } from "../../state/address.ts";
import { joint as asked, light } from "../../state/ask.ts";
import { fresh, note } from "../../state/outbox.ts";
import { workWords as words } from "../../words/work.ts";
import { Photo } from "../work.tsx";

const filter = signal("all");

/** What this browser found of a joint since the answer shown. */
const mine = (j: ScreenJointRow) =>
  fresh.value.filter((r) => r.joint === j.id && !j.written.seen.includes(r.id)).at(-1);

export const foundAt = (j: ScreenJointRow): string => mine(j)?.found || j.found;

function find(j: ScreenJointRow, found: string, picture?: Blob): void {
  const seen = [...j.written.seen, ...fresh.value.filter((r) => r.joint === j.id).map((r) => r.id)];
  note(
    { kind: "joint", joint: j.id, found, ...(seen.length > 0 ? { after: [...new Set(seen)] } : {}) },
    picture,
  );
}

const passes: Record<string, (found: string) => boolean> = {
  all: () => true,
  open: (f) => f !== "tight",
  bubbles: (f) => f === "bubbles" || f === "mended",
  clash: (f) => f === "clash",
};

function Row({ j }: { j: ScreenJointRow }) {
  const found = foundAt(j);
  return (
    <li
      id={`joint-${j.number}`}
      class={`joint ${found}${asked.value === j.id ? " lit" : ""}`}
      onPointerEnter={() => light(j.thing)}
      onPointerLeave={() => light()}
    >
      <p>
        <strong class="joint-number">{j.number}</strong>
        <span>
          {j.between} <span class="soft">{j.words}</span>
        </span>
      </p>
      <p class="joint-state">
        {words.found[found] ?? found}
        {j.written.words !== "" && <span class="soft"> {j.written.words}</span>}
        {j.written.photo !== "" && <a href={jobPath(`/pictures/${j.written.photo}`)}>{words.photo}</a>}
      </p>
      {j.written.clash !== "" && found === "clash" && (
        <p class="waits">
          {words.clash} {j.written.clash}
        </p>
      )}
      <fieldset class="touches">
        <legend class="hidden">
          {words.joints} {j.number}
        </legend>
        {Object.entries(words.marks).map(([state, say]) => (
          <button
            key={state}
            type="button"
            class={state}
            aria-pressed={found === state}
            onClick={() => find(j, state)}
          >
            {say}
          </button>
        ))}
        <Photo of={`${j.number}`} take={(p) => find(j, found === "clash" ? "bubbles" : found, p)} />
      </fieldset>
    </li>
  );
}

/** Every joint with its number, one touch for what the soap water shows. */
export function Joints({ list }: { list: readonly ScreenJointRow[] }) {
  const tight = list.filter((j) => foundAt(j) === "tight").length;
  const only = asked.value;
  const shown = list.filter((j) =>
    only !== "" ? j.id === only : (passes[filter.value] ?? passes.all)?.(foundAt(j)),
  );
  return (
    <section aria-label={words.joints}>
      <h3 id="prove-joints" tabIndex={-1}>
        {words.joints} <span class="soft">{`${tight} ${words.of} ${list.length} ${words.tightOf}`}</span>
      </h3>
      <progress max={list.length} value={tight} aria-label={words.tightOf} />
      <fieldset class="segments">
        <legend class="hidden">{words.filter}</legend>
        {Object.entries(words.filters).map(([id, say]) => (
          <label key={id}>
            <input
              type="radio"
              name="joints"
              checked={only === "" && filter.value === id}
              onChange={() => {
                asked.value = "";
                filter.value = id;
              }}
            />
            <span>{say}</span>
          </label>
        ))}
      </fieldset>
      <ul class="joint-list">
        {shown.map((j) => (
          <Row key={j.id} j={j} />
        ))}
      </ul>
    </section>
  );
}
