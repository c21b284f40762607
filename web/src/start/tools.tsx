import { useSignal } from "@preact/signals";
import { useId, useMemo } from "preact/hooks";
import type { Start as Offered } from "../api/types.gen.ts";
import { startWords as say } from "../words/start.ts";
import { change, draft, offer } from "./draft.ts";
import { Picture } from "./pictures.tsx";

type Row = Offered["tools"][number];

/** What most workshops have, in the order in which it is met. */
const often = [
  "blow-gun",
  "impact-wrench-1/2",
  "ratchet",
  "tyre-inflator",
  "da-sander-6",
  "die-grinder",
  "brad-nailer",
  "framing-nailer",
  "drill",
  "spray-gun",
  "hvlp-gun",
  "blast-cabinet-1/8",
];

const most = 100; // of one class

function Count({ row }: { row: Row }) {
  const d = draft.value;
  const n = d.tools[row.item] ?? 0;
  const put = (to: number) => change({ tools: { ...d.tools, [row.item]: Math.min(Math.max(to, 0), most) } });
  return (
    <li class={n > 0 ? "tool-row has" : "tool-row"}>
      <Picture item={row.item} />
      <span class="tool-words">
        {row.words}
        <span class="soft">{row.figures}</span>
      </span>
      <span class="stepper">
        <button type="button" aria-label={say.fewer(row.words)} disabled={n === 0} onClick={() => put(n - 1)}>
          −
        </button>
        <output aria-label={row.words}>{n}</output>
        <button
          type="button"
          aria-label={say.more(row.words)}
          disabled={n === most}
          onClick={() => put(n + 1)}
        >
          +
        </button>
      </span>
    </li>
  );
}

/** The third question: tools with their figures, those often used first. */
export function Tools() {
  const id = useId();
  const wanted = useSignal("");
  const all = offer.value?.tools ?? [];
  const text = wanted.value.trim().toLowerCase();
  const first = often.flatMap((item) => all.filter((t) => t.item === item));
  // What was taken stays in sight, and moves only when the list comes anew: not under the finger.
  const taken = useMemo(
    () => all.filter((t) => !often.includes(t.item) && (draft.peek().tools[t.item] ?? 0) > 0),
    [text === "", all],
  );
  const rest = all.filter((t) => !often.includes(t.item) && !taken.includes(t));
  const found = text === "" ? [] : all.filter((t) => `${t.words} ${t.item}`.toLowerCase().includes(text));
  const list = (rows: readonly Row[]) => (
    <ul class="tool-list">
      {rows.map((t) => (
        <Count key={t.item} row={t} />
      ))}
    </ul>
  );
  return (
    <>
      <div class="measure wide">
        <label for={id}>{say.find}</label>
        <input
          id={id}
          type="search"
          autocomplete="off"
          placeholder={say.findHint}
          value={wanted.value}
          onInput={(e) => {
            wanted.value = e.currentTarget.value;
          }}
        />
      </div>
      {text !== "" ? (
        found.length > 0 ? (
          list(found)
        ) : (
          <p class="soft">{say.none}</p>
        )
      ) : (
        <>
          {taken.length > 0 && <h3>{say.taken}</h3>}
          {taken.length > 0 && list(taken)}
          <h3>{say.often}</h3>
          {list(first)}
          <details class="five-more">
            <summary>
              {say.all} ({all.length})
            </summary>
            {list(rest)}
          </details>
        </>
      )}
    </>
  );
}
