import type {
  ScreenDryerRow,
  ScreenWaterPlace,
  ScreenWaterRow,
  ScreenWaterSeason,
  ScreenWetLine,
} from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { chosen, light, lit } from "../../state/ask.ts";
import { water } from "../../state/data.ts";
import { season, seasonShown } from "../../state/water.ts";
import { waterWords as words } from "../../words/water.ts";
import { Take } from "../days/take.tsx";
import { Facts, From } from "../facts/facts.tsx";
import { Supposed } from "../facts/supposed.tsx";

const lights = (id: string) => ({
  onPointerEnter: () => light(id),
  onPointerLeave: () => light(),
});

function Place({ place }: { place: ScreenWaterPlace }) {
  return (
    <li {...lights(place.id)} class={place.freezes ? "freezes" : undefined}>
      <span class="fact-words">
        {place.name}: {place.how}
        {place.freezes && <strong>, {words.freezes}</strong>}
      </span>
      <span class="fact-figure">{place.figure}</span>
      <From origin={place.from} of={place.name} />
    </li>
  );
}

function Dryer({ dryer }: { dryer: ScreenDryerRow }) {
  return (
    <li {...lights(dryer.id)}>
      <span class="fact-words">{dryer.words}</span>
      <span class="fact-figure">{dryer.dew_point}</span>
      <From origin={dryer.from} of={dryer.name} />
    </li>
  );
}

function Line({ line }: { line: ScreenWetLine }) {
  return (
    <li {...lights(line.id)} class={line.freezes ? "freezes" : undefined}>
      <span class="fact-words">
        {line.name}, {line.line}
        {line.freezes && <strong>, {words.freezes}</strong>}
      </span>
      <span class="fact-figure">{line.falls}</span>
      <From origin={line.from} of={line.name} />
    </li>
  );
}

function Outlet({ row }: { row: ScreenWaterRow }) {
  return (
    <tr class={row.state} {...lights(row.id)}>
      <th scope="row">
        <button
          type="button"
          class="thing-link"
          onClick={() => {
            chosen.value = row.id;
          }}
        >
          {row.mark} {row.name}
        </button>
        {row.words !== "" && <span class="soft"> {row.words}</span>}
        <span class="soft claim">
          {words.claim} {row.claim}
        </span>
        <From origin={row.from} of={row.name} />
      </th>
      <td class="number">{row.dew_point}</td>
      <td class="number">{row.purity}</td>
    </tr>
  );
}

function Season({ of }: { of: ScreenWaterSeason }) {
  return (
    <>
      <p>{of.sentence}</p>
      <h3>{words.chart}</h3>
      <Chart
        scene={of.scene}
        label={`${of.scene.title}. ${of.sentence}`}
        lit={lit.value}
        onPoint={(id) => light(...(id ? [id] : []))}
      />
      <From origin={of.from} of={words.chart} />
      <Take chart={`wet-${of.season}`} of={words.chart} />
      {of.places.length > 0 && (
        <>
          <h3>{words.drains}</h3>
          <ul class="facts">
            {of.places.map((p) => (
              <Place key={p.id + p.how} place={p} />
            ))}
          </ul>
        </>
      )}
      {of.dryers.length > 0 && (
        <>
          <h3>{words.dryers}</h3>
          <ul class="facts">
            {of.dryers.map((d) => (
              <Dryer key={d.id} dryer={d} />
            ))}
          </ul>
        </>
      )}
      {of.lines.length > 0 && (
        <>
          <h3>{words.lines}</h3>
          <p class="soft">{words.onDrawing}</p>
          <ul class="facts">
            {of.lines.map((l) => (
              <Line key={l.id} line={l} />
            ))}
          </ul>
        </>
      )}
      <h3>{words.outlets}</h3>
      <table class="rows">
        <caption class="hidden">{words.outlets}</caption>
        <thead>
          <tr>
            <th scope="col">{words.outlet}</th>
            <th scope="col" class="number">
              {words.dew}
            </th>
            <th scope="col" class="number">
              {words.class}
            </th>
          </tr>
        </thead>
        <tbody>
          {of.outlets.map((o) => (
            <Outlet key={o.id} row={o} />
          ))}
        </tbody>
      </table>
    </>
  );
}

/** What becomes of the water in the air: where it falls out, where it freezes, how dry the air is at the outlets. */
export function Water() {
  const answer = water.value.value;
  if (!answer) return <p class="soft">{water.fault.value || words.wait.water}</p>;
  if (answer.seasons.length === 0) return <p>{answer.sentence}</p>;
  const shown = seasonShown.value;
  return (
    <section class="days water" aria-label={words.chart}>
      <p class="sentence">{answer.sentence}</p>
      <fieldset class="segments">
        <legend class="hidden">{words.season}</legend>
        {answer.seasons.map((s) => (
          <label key={s.season}>
            <input
              type="radio"
              name="season"
              checked={s === shown}
              onChange={() => {
                season.value = s.season;
              }}
            />
            <span>{words.seasons[s.season] ?? s.season}</span>
          </label>
        ))}
      </fieldset>
      {shown && <Season of={shown} />}
      {answer.unclaimed && <p>{answer.unclaimed}</p>}
      <Facts facts={answer.facts} />
      <Supposed notes={answer.notes} />
    </section>
  );
}
