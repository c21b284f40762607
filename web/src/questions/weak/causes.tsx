import type { FindAnswer, FindCause } from "../../api/types.gen.ts";
import { chosen, light, lit, panel } from "../../state/ask.ts";
import { weakWords as words } from "../../words/weak.ts";
import { Looked } from "./looked.tsx";

/** As many as are worth a look. */
const most = 5;

export const places = (c: FindCause): string[] => [...new Set((c.members ?? []).map((m) => m.on))];

/** What it may be, the likeliest first: how likely as a figure, a word and a bar. */
export function Causes({ answer }: { answer: FindAnswer }) {
  const shown = answer.causes.filter((c, i) => i === 0 || c.chance >= 0.01).slice(0, most);
  return (
    <ol class="causes">
      {shown.map((c) => {
        const on = places(c);
        const first = c.members?.[0];
        const here = on.length > 0 && on.every((id) => lit.value.has(id));
        return (
          <li key={`${c.sort} ${first?.id} ${first?.leg}`} class={here ? "lit" : ""}>
            <button
              type="button"
              class="cause"
              aria-pressed={here}
              disabled={on.length === 0}
              onClick={() => light(...on)}
            >
              <span class="chance-figure">
                <strong>{words.chance(c.chance)}</strong> {c.sureness}
              </span>
              <span class="chance" aria-hidden="true">
                <span style={{ width: `${Math.max(1, 100 * c.chance)}%` }} />
              </span>
              <span class="cause-words">{c.words}</span>
              {c.beside && <span class="soft">{c.beside}</span>}
              {c.range && (
                <span class="soft">
                  {words.sized} {c.range}
                </span>
              )}
            </button>
            {first && (
              <button
                type="button"
                class="thing-link"
                onClick={() => {
                  chosen.value = first.on;
                  panel.value = "";
                }}
              >
                {words.show}
                <span class="hidden">: {first.words}</span>
              </button>
            )}
            <Looked of={c} />
          </li>
        );
      })}
    </ol>
  );
}
