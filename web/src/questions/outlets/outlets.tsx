import type { ScreenOutletRow } from "../../api/types.gen.ts";
import { Verdict } from "../../paint/mark.tsx";
import { chosen, light, lit } from "../../state/ask.ts";
import { words } from "../../words/words.ts";

/** Every outlet in a row, the shortest first. */
export function Outlets({ rows }: { rows: readonly ScreenOutletRow[] }) {
  return (
    <>
      {rows.length > 0 && <h3 class="outlets-now">{words.outletsNow}</h3>}
      <ul class="outlets">
        {rows.map((o) => (
          <li key={o.id}>
            <button
              type="button"
              class={lit.value.has(o.id) ? "lit" : ""}
              onClick={() => {
                chosen.value = o.id;
              }}
              onPointerEnter={() => light(o.id)}
              onPointerLeave={() => light()}
              onFocus={() => light(o.id)}
              onBlur={() => light()}
            >
              <Verdict mark={o.state} />
              <span class="outlet-mark">{o.mark}</span>
              <span class="outlet-name">
                {o.name}
                <span class="soft">{o.words}</span>
              </span>
              <span class="outlet-figure">{o.figure}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
