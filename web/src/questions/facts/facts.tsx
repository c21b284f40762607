import type { ScreenFact, ScreenOrigin } from "../../api/types.gen.ts";
import { inspectWords } from "../../words/inspect.ts";
import { words } from "../../words/words.ts";
import { rowsOf } from "./origin.ts";

/** Where a figure comes from: law, inputs, source, plausible range. Opened by click or key. */
export function From({ origin, of = "" }: { origin: ScreenOrigin; of?: string }) {
  return (
    <details class="from">
      <summary aria-label={of === "" ? undefined : inspectWords.whyOf(of)}>{words.from}</summary>
      <dl>
        {rowsOf(origin).map((r) => (
          <div key={r.words}>
            <dt>{r.words}</dt>
            {r.lines.map((l) => (
              <dd key={l} class={r.law ? "law" : undefined}>
                {l}
              </dd>
            ))}
          </div>
        ))}
      </dl>
    </details>
  );
}

/** Figures with their words, each to be opened. */
export function Facts({ facts }: { facts: ScreenFact[] }) {
  if (facts.length === 0) return null;
  return (
    <ul class="facts">
      {facts.map((f) => (
        <li key={f.words}>
          <span class="fact-words">{f.words}</span>
          <span class="fact-figure">{f.figure}</span>
          {f.from && <From origin={f.from} of={f.words} />}
        </li>
      ))}
    </ul>
  );
}
