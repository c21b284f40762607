import type {
  ScreenBendRow,
  ScreenFixingRow,
  ScreenGrowthRow,
  ScreenSupportRow,
} from "../../api/types.gen.ts";
import { light } from "../../state/ask.ts";
import { hold } from "../../state/data.ts";
import { holdWords as words } from "../../words/hold.ts";
import { From } from "../facts/facts.tsx";
import { Walls } from "./walls.tsx";

const lights = (...ids: string[]) => ({
  onPointerEnter: () => light(...ids),
  onPointerLeave: () => light(),
});

function Supports({ row }: { row: ScreenSupportRow }) {
  return (
    <li {...lights(...row.lines.flatMap((l) => [l.id, ...l.supports]))}>
      <span class="fact-words">
        {row.words}
        <span class="soft claim">
          {words.level} {row.horizontal}, {words.upright} {row.vertical}
        </span>
      </span>
      <span class="fact-figure">
        {row.fixed} {words.fixed}, {row.sliding} {words.sliding}
      </span>
      <From origin={row.from} of={row.words} />
      <details class="held-lines">
        <summary>{words.perLine}</summary>
        <ul>
          {row.lines.map((l) => (
            <li key={l.id} {...lights(l.id, ...l.supports)}>
              {l.name}: {l.words}
            </li>
          ))}
        </ul>
      </details>
    </li>
  );
}

function Fixing({ row }: { row: ScreenFixingRow }) {
  return (
    <li {...lights(...row.things)}>
      <span class="fact-words">
        {row.onto}: {row.words}
        {row.screws !== "" && (
          <span class="soft claim">
            {words.screws} {row.screws}
          </span>
        )}
        {row.pull !== "" && (
          <span class="soft claim">
            {words.pull} {row.pull}
          </span>
        )}
      </span>
      <From origin={row.from} of={row.onto} />
    </li>
  );
}

function Growth({ row }: { row: ScreenGrowthRow }) {
  return (
    <li class={row.state} {...lights(...row.things)}>
      <span class="fact-words">
        {row.name}, {row.length}: {row.state === "short" ? <strong>{row.words}</strong> : row.words}
        {row.helps !== "" && <span class="soft claim">{row.helps}</span>}
      </span>
      <span class="fact-figure">{row.growth}</span>
      <From origin={row.from} of={row.name} />
      {row.legs.length > 0 && (
        <details class="held-lines">
          <summary>{words.legs}</summary>
          <ul>
            {row.legs.map((l) => (
              <li key={l}>{l}</li>
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}

function Bend({ row }: { row: ScreenBendRow }) {
  return (
    <li {...lights(row.id)}>
      <span class="fact-words">
        {row.name}: {row.state === "short" ? <strong>{row.words}</strong> : row.words}
      </span>
      <From origin={row.from} of={row.name} />
    </li>
  );
}

/** How the lines stay put: what holds them and how it is fixed, what grows and where that goes, what to mark where. */
export function Hold() {
  const answer = hold.value.value;
  if (!answer) return <p class="soft">{hold.fault.value || words.wait}</p>;
  return (
    <section class="days hold" aria-label={words.answer}>
      <p class="sentence">{answer.sentence}</p>
      {answer.supports.length > 0 && (
        <>
          <h3>{words.supports}</h3>
          <p class="soft">{words.onDrawing}</p>
          <ul class="facts">
            {answer.supports.map((r) => (
              <Supports key={r.words} row={r} />
            ))}
          </ul>
        </>
      )}
      {answer.fixings.length > 0 && (
        <>
          <h3>{words.fixings}</h3>
          <ul class="facts">
            {answer.fixings.map((r) => (
              <Fixing key={r.onto} row={r} />
            ))}
          </ul>
        </>
      )}
      {answer.growth.length > 0 && (
        <>
          <h3>{words.growth}</h3>
          <ul class="facts">
            {answer.growth.map((r) => (
              <Growth key={r.id} row={r} />
            ))}
          </ul>
        </>
      )}
      {answer.bends.length > 0 && (
        <>
          <h3>{words.bends}</h3>
          <ul class="facts">
            {answer.bends.map((r) => (
              <Bend key={r.id} row={r} />
            ))}
          </ul>
        </>
      )}
      <Walls walls={answer.walls} />
      {answer.notes.length > 0 && (
        <>
          <h3>{words.missing}</h3>
          <ul>
            {answer.notes.map((n) => (
              <li key={n}>{n}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
