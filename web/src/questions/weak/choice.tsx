import type { Weak } from "../../api/types.gen.ts";
import { Chosen } from "../../paint/field.tsx";
import { weakWords as words } from "../../words/weak.ts";
import { type Draft, other, placeId } from "./draft.ts";

/** Things that each hold or do not. */
function Ticks({
  label,
  all,
  on,
  put,
}: {
  label: string;
  all: readonly (readonly [id: string, words: string])[];
  on: readonly string[];
  put: (on: readonly string[]) => void;
}) {
  return (
    <fieldset class="running">
      <legend class="soft">{label}</legend>
      {all.map(([id, say]) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={on.includes(id)}
            onChange={() => put(on.includes(id) ? on.filter((o) => o !== id) : [...on, id])}
          />
          <span>{say}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** What is read, where, and what runs: that of the proposal, or chosen by hand. */
export function Choice({
  of,
  draft,
  put,
  proposed,
}: {
  of: Weak;
  draft: Draft;
  put: (change: Partial<Draft>) => void;
  proposed: Draft;
}) {
  const mine = other.value !== null;
  return (
    <>
      {of.answer?.next && (
        <button
          type="button"
          class="linkish"
          onClick={() => {
            other.value = mine ? null : proposed;
          }}
        >
          {mine ? words.back : words.else}
        </button>
      )}
      {mine && (
        <div class="choice">
          <fieldset class="segments">
            <legend class="soft">{words.kind}</legend>
            {Object.entries(words.kinds).map(([id, say]) => (
              <label key={id}>
                <input
                  type="radio"
                  name="kind"
                  checked={draft.kind === id}
                  onChange={() => put({ kind: id })}
                />
                <span>{say}</span>
              </label>
            ))}
          </fieldset>
          {draft.kind === "pressure" && (
            <Chosen
              label={words.place}
              value={draft.place}
              options={[["", "–"], ...of.places.map((p) => [placeId(p.at, p.tool), p.words] as const)]}
              put={(place) => put({ place })}
            />
          )}
          {draft.kind === "fall" && of.valves.length > 0 && (
            <Ticks
              label={words.shut}
              all={of.valves.map((v) => [v.at, v.words])}
              on={draft.shut}
              put={(shut) => put({ shut })}
            />
          )}
          {(draft.kind === "pressure" || draft.kind === "starts") && (
            <Ticks
              label={words.running}
              all={of.uses.map((u) => [placeId(u.outlet, u.tool), u.words])}
              on={draft.running}
              put={(running) => put({ running })}
            />
          )}
          {draft.kind === "pressure" && (
            <Ticks
              label={words.compressor}
              all={[["stopped", words.stopped]]}
              on={draft.stopped ? ["stopped"] : []}
              put={(on) => put({ stopped: on.length > 0 })}
            />
          )}
        </div>
      )}
    </>
  );
}
