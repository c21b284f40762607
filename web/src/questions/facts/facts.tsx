import type { ScreenFact, ScreenOrigin } from "../../api/types.gen.ts";
import { words } from "../../words/words.ts";

/** Where a figure comes from: law, inputs, source. */
export function From({ origin }: { origin: ScreenOrigin }) {
  return (
    <details class="from">
      <summary>{words.from}</summary>
      <dl>
        {origin.law && (
          <div>
            <dt>{words.law}</dt>
            <dd>{origin.law}</dd>
          </div>
        )}
        {origin.inputs.length > 0 && (
          <div>
            <dt>{words.inputs}</dt>
            {origin.inputs.map((i) => (
              <dd key={i}>{i}</dd>
            ))}
          </div>
        )}
        {origin.sources.length > 0 && (
          <div>
            <dt>{words.source}</dt>
            {origin.sources.map((s) => (
              <dd key={s}>{s}</dd>
            ))}
          </div>
        )}
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
          {f.from && <From origin={f.from} />}
        </li>
      ))}
    </ul>
  );
}
