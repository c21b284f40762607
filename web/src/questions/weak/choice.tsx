import type { Weak } from "../../api/types.gen.ts";
import { Chosen } from "../../paint/field.tsx";
import { weakWords as words } from "../../words/weak.ts";
import { type Draft, other, placeId } from "./draft.ts";

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
          {draft.kind === "fall" && (
            <Chosen
              label={words.shut}
              value={draft.shut}
              options={[["", words.open], ...of.valves.map((v) => [v.at, v.words] as const)]}
              put={(shut) => put({ shut })}
            />
          )}
          {(draft.kind === "pressure" || draft.kind === "starts") && (
            <fieldset class="running">
              <legend class="soft">{words.running}</legend>
              {of.uses.map((u) => {
                const id = placeId(u.outlet, u.tool);
                const on = draft.running.includes(id);
                return (
                  <label key={id}>
                    <input
                      type="checkbox"
                      checked={on}
                      onChange={() =>
                        put({ running: on ? draft.running.filter((r) => r !== id) : [...draft.running, id] })
                      }
                    />
                    <span>{u.words}</span>
                  </label>
                );
              })}
            </fieldset>
          )}
        </div>
      )}
    </>
  );
}
