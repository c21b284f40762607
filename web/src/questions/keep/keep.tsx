import { signal } from "@preact/signals";
import type { JobInterval, JobRecord, ScreenTaskRow } from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { jobPath } from "../../state/address.ts";
import { light } from "../../state/ask.ts";
import { keep } from "../../state/data.ts";
import { fresh, note } from "../../state/outbox.ts";
import { workWords as words } from "../../words/work.ts";
import { Held, OnPaper, Parts, Photo } from "../work.tsx";
import { Interval } from "./interval.tsx";
import { Meters } from "./meters.tsx";

/** What the tasks, of which a shop has dozens, would put out of reach. */
const parts = Object.entries(words.keepParts);

const used = signal("");
const cost = signal("");
const remark = signal("");

const about = (t: ScreenTaskRow) => ({
  kind: "upkeep" as const,
  task: t.task,
  ...(t.thing === "" ? {} : { about: [t.thing] }),
});

const gone = (r: JobRecord): boolean => fresh.value.some((b) => b.takes_back === r.id);

/** What this browser wrote of a task and the answer shown does not know. */
const since = (t: ScreenTaskRow): JobRecord | undefined =>
  fresh.value
    .filter((r) => r.task === t.task && !r.takes_back && !t.written.seen.includes(r.id) && !gone(r))
    .at(-1);

/** The last thing written here, to be taken back: one touch is soon done by mistake, and the task moves away. */
function Last({ tasks }: { tasks: readonly ScreenTaskRow[] }) {
  const last = fresh.value.filter((r) => r.kind === "upkeep" && !r.takes_back && !gone(r)).at(-1);
  const of = tasks.find((t) => t.task === last?.task);
  if (!last || !of) return null;
  return (
    <p class="take-back" role="status">
      <span>
        {words.isDone}: {of.words}, {of.name}
      </span>
      <button type="button" onClick={() => note({ ...about(of), takes_back: last.id })}>
        {words.takeBack}
      </button>
    </p>
  );
}

function log(t: ScreenTaskRow, picture?: Blob): void {
  const money = Number(cost.value.replace(",", "."));
  const parts = used.value
    .split(",")
    .map((p) => p.trim())
    .filter(Boolean);
  note(
    {
      ...about(t),
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
  const done = since(of) !== undefined;
  return (
    <li
      class={`task ${done ? "later" : of.state}`}
      onPointerEnter={() => light(of.thing)}
      onPointerLeave={() => light()}
    >
      <p class="task-due">{done ? words.isDone : of.due}</p>
      <p>
        {of.words} <span class="soft">{of.name}</span>
      </p>
      <p class="soft">
        {of.every}
        {of.written.words !== "" && `; ${words.last} ${of.written.words}`}
        {of.shut_off_first && <strong class="safe"> {words.safe}</strong>}
      </p>
      {!done && (
        <p class="take">
          <button type="button" class="go" onClick={() => note(about(of))}>
            {words.logIt}
            <span class="hidden">: {`${of.words}, ${of.name}`}</span>
          </button>
        </p>
      )}
      {!done && (
        <details class="log-entry">
          <summary>{words.logWith}</summary>
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
      <Last tasks={answer.tasks} />
      <Parts of={parts} />
      <h3 id="keep-due" tabIndex={-1}>
        {words.due}
      </h3>
      {answer.unknown_tasks.map((u) => (
        <p key={u} class="waits">
          {u}
        </p>
      ))}
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
      <h3 id="keep-leaks" tabIndex={-1}>
        {words.leaks}
      </h3>
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
      <h3 id="keep-log" tabIndex={-1}>
        {words.log}
      </h3>
      {answer.log.length === 0 && <p class="soft">{words.noLog}</p>}
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
