import type { Days as DaysAnswer, ScreenServed, ScreenTurning } from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { chosen, light, lit } from "../../state/ask.ts";
import { days, daysFault } from "../../state/days.ts";
import { dayWords as words } from "../../words/days.ts";
import { Facts, From } from "../facts/facts.tsx";
import { Day } from "./day.tsx";
import { Take } from "./take.tsx";

function Compressor({ turning }: { turning: ScreenTurning }) {
  return (
    <section class={`turning ${turning.state}`}>
      <h3>
        <button
          type="button"
          class="thing-link"
          onClick={() => {
            chosen.value = turning.id;
          }}
          onPointerEnter={() => light(turning.id)}
          onPointerLeave={() => light()}
        >
          {turning.name}
        </button>
      </h3>
      <Facts facts={turning.facts} />
    </section>
  );
}

function Tool({ tool }: { tool: ScreenServed }) {
  return (
    <tr class={tool.state} onPointerEnter={() => light(tool.id)} onPointerLeave={() => light()}>
      <th scope="row">
        {tool.name}
        {tool.beside.length > 0 && (
          <details class="from">
            <summary>{words.beside}</summary>
            <ul>
              {tool.beside.map((b) => (
                <li key={b}>{b}</li>
              ))}
            </ul>
          </details>
        )}
        {tool.from && <From origin={tool.from} of={tool.name} />}
      </th>
      <td class="number">{tool.hours}</td>
      <td class="number">{tool.short}</td>
    </tr>
  );
}

/** How often each tool has its pressure, worst off first, and beside whom it has not. */
function Chances({ answer }: { answer: DaysAnswer }) {
  return (
    <section class="chances" aria-labelledby="chances-title">
      <h3 id="chances-title">{words.chance}</h3>
      <Chart
        scene={answer.chance}
        label={answer.chance.title}
        lit={lit.value}
        onPoint={(id) => light(...(id ? [id] : []))}
        onChoose={(id) => {
          chosen.value = id;
        }}
      />
      <table>
        <caption class="hidden">{words.chance}</caption>
        <thead>
          <tr>
            <th scope="col">{words.tool}</th>
            <th scope="col" class="number">
              {words.hours}
            </th>
            <th scope="col" class="number">
              {words.short}
            </th>
          </tr>
        </thead>
        <tbody>
          {answer.tools.map((t) => (
            <Tool key={t.id} tool={t} />
          ))}
        </tbody>
      </table>
      <Take chart="chance" of={words.chance} />
    </section>
  );
}

/** Working days: whether there is enough air as tools come and go. */
export function Days() {
  const answer = days.value;
  if (!answer) return <p class="soft">{daysFault.value || words.waiting}</p>;
  if (answer.known === "") return <p>{answer.sentence}</p>;
  return (
    <section class={`days ${answer.mark}`} aria-label={words.days}>
      <p class="sentence">{answer.sentence}</p>
      <p class="soft" role="status">
        {answer.known}
      </p>
      {answer.remedies.length > 0 && (
        <>
          <h3>{words.remedies}</h3>
          <ul class="remedies">
            {answer.remedies.map((r) => (
              <li key={r.words}>{r.words}</li>
            ))}
          </ul>
        </>
      )}
      <Day days={answer} />
      <Chances answer={answer} />
      {answer.compressors.map((k) => (
        <Compressor key={k.id} turning={k} />
      ))}
      <Facts facts={answer.facts} />
      {answer.notes.map((n) => (
        <p class="soft" key={n}>
          {n}
        </p>
      ))}
    </section>
  );
}
