import { signal } from "@preact/signals";
import type { ScreenItemRow, ScreenSectionRow, ScreenTestRow } from "../../api/types.gen.ts";
import { chosen, joint, light, panel } from "../../state/ask.ts";
import { prove } from "../../state/data.ts";
import { fresh, note } from "../../state/outbox.ts";
import { workWords as words } from "../../words/work.ts";
import { From } from "../facts/facts.tsx";
import { Held, OnPaper, Parts } from "../work.tsx";
import { Bleed } from "./bleed.tsx";
import { DecayEntry } from "./decay.tsx";
import { Joints } from "./joints.tsx";
import { Timing } from "./timing.tsx";

/** What the joints, of which a shop has hundreds, would put out of reach. */
const parts = Object.entries(words.proveParts);

const how = signal<Record<string, string>>({});

function Test({ title, of }: { title: string; of: ScreenTestRow }) {
  return (
    <div class="test">
      <p>
        <strong>{title}</strong> {of.pressure} <span class="soft">{of.words}</span>{" "}
        <From origin={of.from} of={title} />
      </p>
      <p class={of.fits ? "" : "waits"}>
        {words.keepAway}: {of.distance}
        {of.relief !== "" && `; ${words.relief} ${of.relief}`}
      </p>
      <table class="rows">
        <caption class="hidden">{title}</caption>
        <tbody>
          {of.stages.map((s) => (
            <tr key={s.pressure}>
              <th scope="row" class="number">
                {s.pressure}
              </th>
              <td class="number">{s.share}</td>
              <td>{s.words}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Item({ of }: { of: ScreenItemRow }) {
  const text = how.value[of.task] ?? "";
  const written = fresh.value.filter((r) => r.task === of.task).at(-1)?.text ?? of.written;
  return (
    <li
      class={of.stays || written !== "" ? "done" : ""}
      onPointerEnter={() => light(of.thing)}
      onPointerLeave={() => light()}
    >
      {of.name}: {of.words}
      {written !== "" && <span class="soft"> {written}</span>}
      {written === "" && (
        <form
          class="write"
          onSubmit={(e) => {
            e.preventDefault();
            if (text.trim() === "") return;
            note({ kind: "test", task: of.task, about: [of.thing], text: text.trim() });
            how.value = { ...how.value, [of.task]: "" };
          }}
        >
          <input
            type="text"
            aria-label={`${words.write}: ${of.name}`}
            placeholder={words.write}
            value={text}
            onInput={(e) => {
              how.value = { ...how.value, [of.task]: e.currentTarget.value };
            }}
          />
          <button type="submit" disabled={text.trim() === ""}>
            {words.writeIt}
          </button>
        </form>
      )}
    </li>
  );
}

function Section({ of }: { of: ScreenSectionRow }) {
  return (
    <details class={`section ${of.state}`}>
      <summary onPointerEnter={() => light(...of.things)} onPointerLeave={() => light()}>
        {of.name} <span class="soft">{of.words}</span>
      </summary>
      {of.refused !== "" && (
        <p class="waits">
          {words.refused} {of.refused}
        </p>
      )}
      {of.items.length > 0 && (
        <>
          <h4>{words.isolate}</h4>
          <ul class="items">
            {of.items.map((i) => (
              <Item key={i.task} of={i} />
            ))}
          </ul>
        </>
      )}
      {of.test && <Test title={words.test} of={of.test} />}
      {of.leak_test && <Test title={words.leakTest} of={of.leak_test} />}
      {(of.test ?? of.leak_test) && (
        <button
          type="button"
          class="go"
          onClick={() => note({ kind: "test", found: "tight", test: { way: "pressure", section: of.id } })}
        >
          {words.pressed}
        </button>
      )}
      <ul class="made">
        {of.made.map((m) => (
          <li key={m.record} class={m.state}>
            <strong>{m.figure}</strong> {m.words} <span class="soft">{m.when}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Does it hold: joints by number, sections with their tests, what was read, what was not checked. */
export function Prove() {
  const answer = prove.value.value;
  if (!answer) return <p class="soft">{prove.fault.value || words.wait}</p>;
  return (
    <section class="days work prove" aria-label={words.prove}>
      <Held />
      {joint.value === "" && <Parts of={parts} />}
      <Joints list={answer.joints} />
      {joint.value === "" && (
        <>
          <DecayEntry sections={answer.sections} />
          <Timing made={answer.whole} />
          <Bleed />
          <h3 id="prove-sections" tabIndex={-1}>
            {words.sections}
          </h3>
          <p class="soft">
            {answer.rule} <From origin={answer.rule_from} of={words.test} />
          </p>
          {answer.sections.map((s) => (
            <Section key={s.id} of={s} />
          ))}
          <h3 id="prove-outlets" tabIndex={-1}>
            {words.outlets}
          </h3>
          <ul class="facts">
            {answer.outlets.map((o) => (
              <li key={o.id} onPointerEnter={() => light(o.id)} onPointerLeave={() => light()}>
                <span class="fact-words">
                  <strong>{o.name}</strong> <span class="soft">{o.words}</span>
                  {o.dew !== "" && <span class="soft claim">{o.dew}</span>}
                </span>
                <span class="fact-figure">
                  {o.read}
                  {o.design !== "" && ` (${o.design} ${words.design})`}
                </span>
                <button
                  type="button"
                  class="thing-link"
                  onClick={() => {
                    chosen.value = o.id;
                    panel.value = "reading";
                  }}
                >
                  {words.readOutlet}
                </button>
              </li>
            ))}
          </ul>
          {answer.outlets.some((o) => o.read !== "") && (
            <button
              type="button"
              class="linkish"
              onClick={() => {
                panel.value = "weak";
              }}
            >
              {words.setByReadings}
            </button>
          )}
          {answer.checked.length > 0 && <h3>{words.checked}</h3>}
          <ul>
            {answer.checked.map((t) => (
              <li key={t}>{t}</li>
            ))}
          </ul>
          <h3 id="prove-record" tabIndex={-1}>
            {words.unchecked}
          </h3>
          <ul>
            {answer.not_checked.map((t) => (
              <li key={t}>{t}</li>
            ))}
          </ul>
          <OnPaper sheet="test" title={words.recordOnPaper} />
        </>
      )}
    </section>
  );
}
