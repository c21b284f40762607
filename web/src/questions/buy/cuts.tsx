import type { ScreenCutRow } from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { light, lit } from "../../state/ask.ts";
import { tick, ticked } from "../../state/ticks.ts";
import { buyWords as words } from "../../words/buy.ts";
import { From } from "../facts/facts.tsx";
import { lights } from "./lights.ts";

/** How one stock and size is cut. */
export function Cuts({ of }: { of: ScreenCutRow }) {
  return (
    <section class="cut-plan">
      <h4>{of.words}</h4>
      <p>{of.sentence}</p>
      {of.joints.length > 0 && (
        <ul>
          {of.joints.map((j) => (
            <li key={j}>{j}</li>
          ))}
        </ul>
      )}
      {of.bars.length > 0 && (
        <>
          <Chart
            scene={of.scene}
            label={`${of.words}. ${of.sentence}`}
            lit={lit.value}
            onPoint={(id) => light(...(id ? [id] : []))}
          />
          <From origin={of.from} of={of.words} />
          <details>
            <summary>{words.cuts}</summary>
            {of.bars.map((b) => (
              <section key={b.words}>
                <h5>{b.words}</h5>
                <ol class="cuts">
                  {b.cuts.map((c) => (
                    <li key={c.piece} {...lights(c.thing)}>
                      <label class="tick">
                        <input
                          type="checkbox"
                          checked={ticked.value.has(c.piece)}
                          onChange={() => tick(c.piece)}
                        />
                        <strong>{c.length}</strong>
                      </label>
                      {c.at && <span class="soft"> {c.at}</span>}
                    </li>
                  ))}
                </ol>
                <p class="soft">
                  {words.open} {b.left}
                </p>
              </section>
            ))}
          </details>
        </>
      )}
    </section>
  );
}
