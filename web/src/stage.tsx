import type { Plan, ScreenHead } from "./api/types.gen.ts";
import { commands } from "./commands/commands.ts";
import { Drawing } from "./drawing.tsx";
import { Sample } from "./paint/sample.tsx";
import { set, supply } from "./state/ask.ts";
import { fitted, look, pane, zoomed } from "./state/look.ts";
import { words } from "./words/words.ts";

/** What is drawn for: who runs, and where between cut-in and cut-out the compressor stands. */
function Ask({ head }: { head: ScreenHead }) {
  const shown = head.sets.find((s) => s.id === (set.value || head.set));
  return (
    <div class="ask">
      {head.sets.length > 0 && (
        <label class="select wide">
          <span>{words.running}</span>
          <select
            value={set.value || head.set}
            onChange={(e) => {
              set.value = e.currentTarget.value;
            }}
          >
            {head.sets.map((s) => (
              <option key={s.id} value={s.id}>
                {s.words}
              </option>
            ))}
          </select>
        </label>
      )}
      <fieldset class="segments">
        <legend>{words.supply}</legend>
        {head.cases.map((c) => (
          <label key={c.id} title={c.note ?? ""}>
            <input
              type="radio"
              name="case"
              checked={(supply.value || head.case) === c.id}
              onChange={() => {
                supply.value = c.id;
              }}
            />
            <span>{c.words}</span>
          </label>
        ))}
      </fieldset>
      <div class="zoom">
        <button type="button" aria-label={words.zoomOut} onClick={() => zoomBy(1 / 1.4)}>
          −
        </button>
        <button
          type="button"
          onClick={() => {
            look.value = fitted;
          }}
        >
          {words.fit}
        </button>
        <button type="button" aria-label={words.zoomIn} onClick={() => zoomBy(1.4)}>
          +
        </button>
      </div>
      {shown?.note && <p class="who soft">{shown.note}</p>}
    </div>
  );
}

function zoomBy(factor: number) {
  const { width, height } = pane.value;
  look.value = zoomed(look.value, factor, width / 2, height / 2);
}

function Legend({ plan }: { plan: Plan }) {
  return (
    <section class="legend" aria-label="How to read the drawing">
      {plan.legend.length > 0 && (
        <ul aria-label={words.legend}>
          <li aria-hidden="true" class="legend-title">
            {words.legend}
          </li>
          {plan.legend.map((b) => (
            <li key={b.color}>
              <Sample band={b} />
              {b.words}
            </li>
          ))}
        </ul>
      )}
      {plan.notes.length > 0 && <p class="soft">{plan.notes.join(" ")}</p>}
      <details class="keys">
        <summary>{words.keys}</summary>
        <dl>
          <div>
            <dt>← → ↑ ↓</dt>
            <dd>go to the next thing</dd>
          </div>
          <div>
            <dt>Enter</dt>
            <dd>choose it</dd>
          </div>
          {commands
            .filter((c) => c.shown !== "")
            .map((c) => (
              <div key={c.shown}>
                <dt>{c.shown}</dt>
                <dd>{c.words}</dd>
              </div>
            ))}
        </dl>
      </details>
    </section>
  );
}

/** The drawing with what it is asked for above and how to read it below. */
export function Stage({ head, plan, stale }: { head: ScreenHead; plan: Plan | null; stale: boolean }) {
  return (
    <main class={`stage${stale ? " stale" : ""}`}>
      <Ask head={head} />
      <div class="sheet">
        <Drawing
          scene={plan?.scene ?? { title: "", min_m: [0, 0], max_m: [1, 1], layers: [] }}
          label={plan ? `${plan.scene.title}. ${plan.sentence}` : words.loading}
        />
        {!plan && <p class="waiting">{words.loading}</p>}
      </div>
      {plan && <Legend plan={plan} />}
    </main>
  );
}
