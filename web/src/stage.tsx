import type { ScreenHead } from "./api/types.gen.ts";
import { Bar } from "./bar.tsx";
import { commands } from "./commands/commands.ts";
import { Drawing } from "./drawing.tsx";
import { Hint } from "./hint.tsx";
import { Sample } from "./paint/sample.tsx";
import { Band } from "./questions/alternatives/band.tsx";
import { Hints } from "./questions/help/hints.tsx";
import { Rail } from "./rail.tsx";
import { set, supply } from "./state/ask.ts";
import { clock, moment } from "./state/days.ts";
import { drawingAwaited, fault, legend, notes, sheet, shown } from "./state/live.ts";
import { myName } from "./state/name.ts";
import { tool } from "./tools/tool.ts";
import { dayWords } from "./words/days.ts";
import { words } from "./words/words.ts";

/** What is drawn for: who runs, and where between cut-in and cut-out the compressor stands. */
function Ask({ head }: { head: ScreenHead }) {
  const chosenSet = head.sets.find((s) => s.id === (set.value || head.set));
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
            {moment.value !== null && (
              <option value={set.value}>{dayWords.momentOf(clock(moment.value))}</option>
            )}
            {head.sets.map((s) => (
              <option key={s.id} value={s.id}>
                {s.words}
              </option>
            ))}
          </select>
        </label>
      )}
      {head.cases.length > 0 && moment.value === null && (
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
      )}
      {chosenSet?.note && <p class="who soft">{chosenSet.note}</p>}
    </div>
  );
}

/** Every key: those of the tool in the hand first. */
function Keys() {
  const own = tool.value?.keys ?? [];
  const placing = tool.value?.set ? words.placingKeys : [];
  const all = [
    ...own,
    ...placing,
    ...commands.filter((c) => c.shown !== "").map((c) => [c.shown, c.words] as const),
  ];
  return (
    <details class="keys">
      <summary>{words.keys}</summary>
      <dl>
        {all.map(([key, what]) => (
          <div key={key + what}>
            <dt>{key}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** Who did it, as the history writes it. */
function Name() {
  return (
    <label class="my-name">
      <span>{words.name}</span>
      <input
        value={myName.value}
        maxLength={60}
        autocomplete="off"
        onChange={(e) => {
          myName.value = e.currentTarget.value.trim() || myName.peek();
        }}
      />
    </label>
  );
}

function Legend() {
  return (
    <section class="legend" aria-label="How to read the drawing">
      {legend.value.length > 0 && (
        <ul aria-label={words.legend}>
          <li aria-hidden="true" class="legend-title">
            {words.legend}
          </li>
          {legend.value.map((b) => (
            <li key={b.color}>
              <Sample band={b} />
              {b.words}
            </li>
          ))}
        </ul>
      )}
      {notes.value.length > 0 && <p class="soft">{notes.value.join(" ")}</p>}
      <Name />
      <Keys />
    </section>
  );
}

/** The drawing with the tools beside it, and below what it is asked for and how to read it. */
export function Stage({ head, stale }: { head: ScreenHead; stale: boolean }) {
  return (
    <main class={`stage${stale || drawingAwaited.value ? " stale" : ""}`}>
      <p class="print-title">{sheet.title.value}</p>
      <Bar head={head} />
      <Band />
      <div class="bench">
        <Rail />
        <div class="table">
          <Hints />
          <Hint />
          <div class="sheet">
            <Drawing />
            {shown.value < 0 && <p class="waiting">{fault.value || words.loading}</p>}
          </div>
        </div>
      </div>
      <Ask head={head} />
      <Legend />
    </main>
  );
}
