import { signal } from "@preact/signals";
import type { JobRecord, ScreenStepRow } from "../../api/types.gen.ts";
import { light } from "../../state/ask.ts";
import { build } from "../../state/data.ts";
import { fresh, note } from "../../state/outbox.ts";
import { step } from "../../state/post.ts";
import { workWords as words } from "../../words/work.ts";
import { Held, OnPaper } from "../work.tsx";

const whole = signal(false);
const longer = signal("");

/** The newest that this browser wrote of a task and the answer shown does not know. */
const mine = (s: ScreenStepRow): JobRecord | undefined =>
  fresh.value.filter((r) => r.task === s.task && !s.written.seen.includes(r.id)).at(-1);

/** What was taken back here of what the answer shows. */
const back = (s: ScreenStepRow): boolean => fresh.value.some((r) => r.takes_back === newest(s));

const newest = (s: ScreenStepRow): string => mine(s)?.id ?? s.written.record;

function isDone(s: ScreenStepRow): boolean {
  if (newest(s) !== "" && back(s)) return false;
  return mine(s) !== undefined || s.done;
}

const tick = (s: ScreenStepRow): void =>
  note({ kind: "build", task: s.task, ...(s.written.seen.length > 0 ? { after: s.written.seen } : {}) });

const takeBack = (s: ScreenStepRow): void => note({ kind: "build", task: s.task, takes_back: newest(s) });

const lights = (s: ScreenStepRow) => ({
  onPointerEnter: () => light(...s.things),
  onPointerLeave: () => light(),
});

const figure = (s: ScreenStepRow): string =>
  s.what === "join" ? `№ ${s.figure}` : s.what === "cut" ? s.figure : "";

/** One thing to do, in figures that can be read at arm's length. */
function Big({ title, of }: { title: string; of: ScreenStepRow }) {
  return (
    <section class={`big-step ${of.what}`} aria-label={title} {...lights(of)}>
      <h3>{title}</h3>
      {figure(of) !== "" && <p class="big-figure">{figure(of)}</p>}
      <p>{of.words}</p>
      {of.waits !== "" && <p class="waits">{of.waits}</p>}
      <ul class="details">
        {of.details.map((d) => (
          <li key={d}>{d}</li>
        ))}
      </ul>
      <button type="button" class="go strong" onClick={() => tick(of)}>
        {words.done}
      </button>
      {of.what === "cut" && <Longer of={of} />}
    </section>
  );
}

/** What came out otherwise goes back into the drawing as an ordinary step. */
function Longer({ of }: { of: ScreenStepRow }) {
  return (
    <details class="longer">
      <summary>{words.longer}</summary>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          const mm = Number(longer.value.replace(",", ".").replace("−", "-"));
          if (!Number.isFinite(mm) || mm === 0) return;
          void step({ do: "longer", run: of.line, by_m: mm / 1000 }).then((o) => {
            if (o.done) longer.value = "";
          });
        }}
      >
        <label>
          <span>{words.longerBy}, mm</span>
          <input
            type="text"
            inputMode="decimal"
            value={longer.value}
            onInput={(e) => {
              longer.value = e.currentTarget.value;
            }}
          />
        </label>
        <button type="submit">{words.longerGo}</button>
      </form>
    </details>
  );
}

function Row({ s }: { s: ScreenStepRow }) {
  const ok = isDone(s);
  return (
    <li class={ok ? "done" : s.waits !== "" ? "waiting" : ""} {...lights(s)}>
      <label class="tick">
        <input type="checkbox" checked={ok} onChange={() => (ok ? takeBack(s) : tick(s))} />
        <span>
          {figure(s) !== "" && <strong>{figure(s)} </strong>}
          {s.words}
        </span>
      </label>
      {s.waits !== "" && !ok && <span class="waits">{s.waits}</span>}
      {s.written.words !== "" && <span class="soft">{s.written.words}</span>}
    </li>
  );
}

/** The order of work: what is next in big figures, and all of it to tick off. */
export function Build() {
  const answer = build.value.value;
  if (!answer) return <p class="soft">{build.fault.value || words.wait}</p>;
  const open = answer.steps.filter((s) => !isDone(s));
  const next = open[0];
  const cut = open.find((s) => s.what === "cut" && s !== next);
  const joint = open.find((s) => s.what === "join" && s !== next);
  const last = fresh.value.filter((r) => r.kind === "build" && !r.takes_back).at(-1);
  const lastStep = answer.steps.find((s) => s.task === last?.task && isDone(s));
  return (
    <section class="days work" aria-label={words.build}>
      <Held />
      {lastStep && (
        <p class="take-back" role="status">
          {words.isDone}: {figure(lastStep)} {lastStep.words}{" "}
          <button type="button" onClick={() => takeBack(lastStep)}>
            {words.takeBack}
          </button>
        </p>
      )}
      <div class="big-steps">
        {next && (
          <Big
            title={next.what === "cut" ? words.nextCut : next.what === "join" ? words.nextJoint : words.next}
            of={next}
          />
        )}
        {cut && <Big title={words.nextCut} of={cut} />}
        {joint && <Big title={words.nextJoint} of={joint} />}
      </div>
      <label class="switch">
        <input
          type="checkbox"
          checked={whole.value}
          onChange={() => {
            whole.value = !whole.value;
          }}
        />
        <span>{words.all}</span>
      </label>
      {answer.progress.map((p) => {
        const of = answer.steps.filter((s) => s.stage === p.stage);
        const done = of.filter(isDone).length;
        const shown = whole.value ? of : of.filter((s) => !isDone(s));
        return (
          <details key={p.stage} open={next?.stage === p.stage}>
            <summary>
              {p.words}{" "}
              <span class="soft">
                {done} {words.of} {of.length}
              </span>
              <progress max={of.length} value={done} aria-label={p.words} />
            </summary>
            <ul class="steps">
              {shown.map((s) => (
                <Row key={s.task} s={s} />
              ))}
            </ul>
          </details>
        );
      })}
      <OnPaper sheet="order" title={words.orderOnPaper} />
    </section>
  );
}
