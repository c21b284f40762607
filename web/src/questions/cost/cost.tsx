import type { ScreenLeakRow, ScreenSavingRow, ScreenSpent } from "../../api/types.gen.ts";
import { light } from "../../state/ask.ts";
import { cost } from "../../state/data.ts";
import { waterWords as words } from "../../words/water.ts";
import { From } from "../facts/facts.tsx";
import { Supposed } from "../facts/supposed.tsx";

/** Electricity, and what it costs where that is known. */
function Sum({ of }: { of: ScreenSpent }) {
  return (
    <>
      {of.money && <span class="money">{of.money} </span>}
      <span class={of.money ? "soft" : undefined}>{of.electricity}</span>
    </>
  );
}

function Saving({ row }: { row: ScreenSavingRow }) {
  return (
    <li onPointerEnter={() => light(...(row.tool ? [row.tool] : []))} onPointerLeave={() => light()}>
      <span class="fact-words">
        {row.words}
        <span class="share soft">{row.share}</span>
      </span>
      <span class="fact-figure">
        <Sum of={row} />
      </span>
      <From origin={row.from} of={row.words} />
    </li>
  );
}

function Leak({ row }: { row: ScreenLeakRow }) {
  return (
    <tr>
      <th scope="row">
        {row.bore}
        <From origin={row.from} of={`${words.bore} ${row.bore}`} />
      </th>
      <td class="number">{row.loses}</td>
      <td class="number">
        <Sum of={row.work} />
      </td>
      <td class="number">
        <Sum of={row.always} />
      </td>
    </tr>
  );
}

/** A year's electricity: compressors, what would save, what leaks cost. */
export function Cost() {
  const answer = cost.value.value;
  if (!answer) return <p class="soft">{cost.fault.value || words.wait.cost}</p>;
  if (answer.untold) return <p>{answer.sentence}</p>;
  return (
    <section class="days cost" aria-label={words.year}>
      <p class="sentence">{answer.sentence}</p>
      {answer.measures.length > 0 && (
        <>
          <h3>{words.measures}</h3>
          <ul class="facts">
            {answer.measures.map((m) => (
              <Saving key={m.words} row={m} />
            ))}
          </ul>
        </>
      )}
      <h3>{words.leaks}</h3>
      <table class="rows">
        <caption class="hidden">{words.leaks}</caption>
        <thead>
          <tr>
            <th scope="col">{words.bore}</th>
            <th scope="col" class="number">
              {words.loses}
            </th>
            <th scope="col" class="number">
              {words.work}
            </th>
            <th scope="col" class="number">
              {words.always}
            </th>
          </tr>
        </thead>
        <tbody>
          {answer.leaks.map((l) => (
            <Leak key={l.bore} row={l} />
          ))}
        </tbody>
      </table>
      {answer.compressors.length > 1 && (
        <ul class="facts">
          {answer.compressors.map((k) => (
            <li key={k.id} onPointerEnter={() => light(k.id)} onPointerLeave={() => light()}>
              <span class="fact-words">
                {k.name}, {k.motor}
              </span>
              <span class="fact-figure">
                <Sum of={k} />
              </span>
              <From origin={k.from} of={k.name} />
            </li>
          ))}
        </ul>
      )}
      <Supposed notes={answer.notes} />
    </section>
  );
}
