import { signal } from "@preact/signals";
import type { JobInterval, ScreenTaskRow } from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { jobPath } from "../../state/address.ts";
import { light } from "../../state/ask.ts";
import { keep } from "../../state/data.ts";
import { fresh, note } from "../../state/outbox.ts";
import { workWords as words } from "../../words/work.ts";
import { Held, OnPaper, Photo } from "../work.tsx";
import { Interval } from "./interval.tsx";
import { Meters } from "./meters.tsx";

const used = signal("");
const cost = signal("");
const remark = signal("");

function log(t: ScreenTaskRow, picture?: Blob): void {
  const money = Number(cost.value.replace(",", "."));
  const parts = used.value
    .split(",")
    .map((p) => p.trim())
    .filter(Boolean);
  note(
    {
      kind: "upkeep",
      task: t.task,
      ...(t.thing === "" ? {} : { about: [t.thing] }),
      ...(parts.length > 0 ? { used: parts } : {}),
      ...(cost.value.trim() !== "" && Number.isFinite(money) && money >= 0 ? { cost: money } : {}),
      ...(remark.value.trim() === "" ? {} : { text: remark.value.trim() }),
    },
    picture,
  );
  used.value = "";
  cost.value = "";
  remark.value = "";
}

function Task({ of, own }: { of: ScreenTaskRow; own: readonly JobInterval[] }) {
  const mine = fresh.value.some((r) => r.task === of.task && !of.written.seen.includes(r.id));
  return (
    <li
      class={`task ${mine ? "later" : of.state}`}
      onPointerEnter={() => light(of.thing)}
      onPointerLeave={() => light()}
    >
      <p class="task-due">{mine ? words.isDone : of.due}</p>
      <p>
        {of.words} <span class="soft">{of.name}</span>
      </p>
      <p class="soft">
        {of.every}
        {of.written.words !== "" && `; ${words.last} ${of.written.words}`}
        {of.shut_off_first && <strong class="safe"> {words.safe}</strong>}
      </p>
      {!mine && (
        <details class="log-entry">
          <summary>{words.logIt}</summary>
          <Field label={words.used} of={used} mode="text" />
          <Field label={words.cost} of={cost} />
          <Field label={words.remark} of={remark} mode="text" />
          <p class="take">
            <button type="button" class="go strong" onClick={() => log(of)}>
              {words.logIt}
            </button>
            <Photo of={of.words} take={(p) => log(of, p)} />
          </p>
        </details>
      )}
      <Interval key={`${of.days} ${of.hours} ${of.own}`} of={of} own={own} />
    </li>
  );
}

/** What is due, and what was done. */
export function Keep() {
  const answer = keep.value.value;
  if (!answer) return <p class="soft">{keep.fault.value || words.wait}</p>;
  return (
    <section class="days work" aria-label={words.keep}>
      <Held />
      <h3>{words.due}</h3>
      <ul class="tasks">
        {answer.tasks.map((t) => (
          <Task key={t.task} of={t} own={answer.own} />
        ))}
      </ul>
      <p class="take">
        <a href={jobPath("/upkeep.ics")} download>
          {words.calendar}
        </a>
      </p>
      <OnPaper sheet="upkeep" title={words.yearOnPaper} />
      <h3>{words.leaks}</h3>
      <p>{answer.trend}</p>
      <ul>
        {answer.leaks.map((l) => (
          <li key={l.record}>
            {l.words} <span class="soft">{l.when}</span>
          </li>
        ))}
      </ul>
      {answer.running.length > 0 && <h3>{words.hours}</h3>}
      <ul>
        {answer.running.map((r) => (
          <li key={r.thing}>
            {r.name}: {r.words}
          </li>
        ))}
      </ul>
      <Meters of={answer} />
      {answer.log.length > 0 && <h3>{words.log}</h3>}
      <ul class="made">
        {answer.log.map((l) => (
          <li key={l.record}>
            {l.words} {l.cost} <span class="soft">{l.when}</span>
            {l.photo !== "" && <a href={jobPath(`/pictures/${l.photo}`)}>{words.photo}</a>}
          </li>
        ))}
      </ul>
      {answer.years.length > 0 && <p class="soft">{answer.years.join("; ")}</p>}
      {answer.cost !== "" && <p>{answer.cost}</p>}
    </section>
  );
}
