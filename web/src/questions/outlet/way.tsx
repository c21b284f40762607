import { useEffect, useRef } from "preact/hooks";
import type { Way as WayAnswer } from "../../api/types.gen.ts";
import { Chart } from "../../paint/chart.tsx";
import { chosen, light, lit } from "../../state/ask.ts";
import { words } from "../../words/words.ts";
import { Back } from "../back.tsx";
import { Facts, From } from "../facts/facts.tsx";
import { Actions } from "../thing/actions.tsx";

/** The staircase: its steps light the same things as on the drawing. */
function Stairs({ way }: { way: WayAnswer }) {
  return (
    <Chart
      scene={way.scene}
      label={`${way.scene.title}. ${way.sentence}`}
      lit={lit.value}
      onPoint={(id) => light(...(id ? [id] : []))}
    />
  );
}

function Steps({ way }: { way: WayAnswer }) {
  return (
    <details class="steps">
      <summary>{words.elements}</summary>
      <table>
        <caption class="hidden">{way.scene.title}</caption>
        <thead>
          <tr>
            <th scope="col">Element</th>
            <th scope="col" class="number">
              In
            </th>
            <th scope="col" class="number">
              Out
            </th>
            <th scope="col" class="number">
              Takes
            </th>
            <th scope="col" class="number">
              Share
            </th>
          </tr>
        </thead>
        <tbody>
          {way.steps.map((s, i) => (
            <tr
              key={i}
              class={`${s.tall ? "tall" : ""}${lit.value.has(s.id) ? " lit" : ""}`}
              onPointerEnter={() => light(s.id)}
              onPointerLeave={() => light()}
            >
              <th scope="row">
                {s.words}
                <From origin={s.from} of={s.words} />
              </th>
              <td class="number">{s.in}</td>
              <td class="number">{s.out}</td>
              <td class="number">{s.loss}</td>
              <td class="number">{s.share_pct} %</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** Ranked: what takes most, first. */
function Takers({ way }: { way: WayAnswer }) {
  const ranked = way.steps
    .filter((s) => s.share_pct >= 3)
    .sort((a, b) => b.share_pct - a.share_pct)
    .slice(0, 6);
  if (ranked.length === 0) return null;
  return (
    <ol class="takers">
      {ranked.map((s) => (
        <li key={`${s.id}${s.words}`}>
          <button
            type="button"
            class={lit.value.has(s.id) ? "lit" : ""}
            onClick={() => {
              if (/^(line|point)\./.test(s.id)) chosen.value = s.id;
            }}
            onPointerEnter={() => light(s.id)}
            onPointerLeave={() => light()}
            onFocus={() => light(s.id)}
            onBlur={() => light()}
          >
            <span class="taker-words">{s.words}</span>
            <span class="taker-figure">{s.loss}</span>
            <meter min={0} max={100} value={s.share_pct} aria-label={words.share} />
            <span class="taker-share">{s.share_pct} %</span>
          </button>
        </li>
      ))}
    </ol>
  );
}

/** One outlet: the large figure, the sentence, the way of the air. */
export function Way({ way }: { way: WayAnswer }) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const wide = matchMedia("(min-width: 900px)").matches;
    const now = document.activeElement;
    // What opens by itself takes no focus; nor is it taken from the drawing, where the thing is worked on.
    if (now === document.body || (wide && now?.closest(".hand-space"))) return;
    title.current?.focus({ preventScroll: wide });
  }, [way.outlet]);
  return (
    <section class={`way ${way.state}`} aria-labelledby="way-title">
      <Back
        said={words.allOutlets}
        leave={() => {
          chosen.value = "";
        }}
      />
      <h2 id="way-title" ref={title} tabIndex={-1}>
        {way.title}
      </h2>
      <Actions />
      <p class="big">
        <span class="number">{way.number}</span> <span class="unit">{way.unit}</span>
        <span class="beside">{way.beside}</span>
      </p>
      {way.from && <From origin={way.from} of={`${way.number} ${way.unit}`} />}
      <p class="sentence">{way.sentence}</p>
      {way.rests && <p class="soft">{way.rests}</p>}
      {way.steps.length > 0 && <Stairs way={way} />}
      <Takers way={way} />
      {way.steps.length > 0 && <Steps way={way} />}
      <Facts facts={way.facts} />
    </section>
  );
}
