import { effect, signal, useSignal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { Refused, send } from "../api/client.ts";
import { askLines } from "../api/lines.ts";
import type { Created, Fault, Making, Problem } from "../api/types.gen.ts";
import { startWords as say } from "../words/start.ts";
import { answersOf, fieldOf, questionOf, sentences, unread } from "./answers.ts";
import { Compressor } from "./compressor.tsx";
import { Done } from "./done.tsx";
import { change, draft, offer, offerFault } from "./draft.ts";
import { asking } from "./measure.tsx";
import { Money } from "./money.tsx";
import type { OnWall } from "./outline.ts";
import { addPlace, Places } from "./places.tsx";
import { Plan } from "./plan.tsx";
import { addDoor, Room } from "./room.tsx";
import { Tools } from "./tools.tsx";

interface Question {
  words: string;
  Answer: ComponentType;
  /** What a click on a wall of the plan does. */
  set?: (at: OnWall) => void;
  hint?: string;
}

const questions: readonly Question[] = [
  { words: say.q1, Answer: Room, set: addDoor, hint: say.doorHint },
  { words: say.q2, Answer: Compressor, set: (stand) => change({ stand }), hint: say.standHint },
  { words: say.q3, Answer: Tools },
  { words: say.q4, Answer: Places, set: addPlace, hint: say.pickHint },
  { words: say.q5, Answer: Money },
];

/** The question that lies open, from 1. */
const open = signal(1);
const problems = signal<readonly Problem[]>([]);
/** Seconds since the plan was asked for; −1: it is not being drawn. */
const under = signal(-1);
/** What the program is doing for it. */
const doing = signal("");
const made = signal<Created | null>(null);
/** The plan that the next one takes the place of. */
let before = "";

/** Begins again at the first question. */
export function fromTheTop(): void {
  open.value = 1;
  problems.value = [];
  made.value = null;
  before = "";
}

/** Back to the question that says an assumption otherwise. */
function again(key: string): void {
  before = made.value?.id ?? "";
  made.value = null;
  open.value = questionOf(key);
  scrollTo(0, 0);
}

/** Waits until what was typed last is understood. */
export function understood(): Promise<void> {
  return new Promise((go) => {
    let stop = () => {};
    stop = effect(() => {
      if (asking.value > 0) return;
      queueMicrotask(() => stop());
      go();
    });
  });
}

/** Has the job made, and hears meanwhile what is being done. */
async function make(body: object): Promise<Created> {
  const answer = await askLines<Making>("/api/jobs", body);
  if (answer instanceof Response) throw new Refused((await answer.json()) as Fault);
  for await (const line of answer) {
    if (line.fault) throw new Refused(line.fault);
    if (line.made) return line.made;
    doing.value = line.total > 1 ? say.doingOf(line.doing, line.done, line.total) : line.doing;
  }
  throw new Error(say.offline);
}

async function draw(): Promise<void> {
  if (under.value >= 0) return;
  await understood();
  const first = unread(draft.value)[0];
  if (first !== undefined) {
    open.value = first;
    return;
  }
  problems.value = [];
  under.value = 0;
  const begun = performance.now();
  const clock = setInterval(() => {
    under.value = Math.floor((performance.now() - begun) / 1000);
  }, 250);
  try {
    const d = draft.value;
    const body = { from: d.existing ? "existing" : "start", title: d.title.trim(), start: answersOf(d) };
    made.value = await make(body);
    if (before !== "") void send("DELETE", `/api/jobs/${encodeURIComponent(before)}`);
    before = "";
    scrollTo(0, 0);
  } catch (e) {
    const told = e instanceof Refused ? (e.fault.problems ?? []) : [];
    const words = e instanceof Error ? e.message : String(e);
    problems.value = told.length > 0 ? told : [{ path: "", read: "", want: words, where: [] }];
    if (told[0]) open.value = questionOf(told[0].path);
  } finally {
    clearInterval(clock);
    under.value = -1;
    doing.value = "";
  }
}

/** What cannot be used: that of the question which lies open stands in it, that of the others names theirs. */
function Told({ of }: { of: number }) {
  const here = problems.value.filter((p) => of === 0 || questionOf(p.path) === of);
  const rows = of === 0 ? here.filter((p) => p.path === "" || questionOf(p.path) !== open.value) : here;
  if (rows.length === 0) return null;
  return (
    <div class="five-told" role="alert">
      <p>{of === 0 ? say.mend : say.unusable}</p>
      <ul>
        {rows.map((p) => (
          <li key={p.path + p.want}>
            {of === 0 && p.path !== "" && (
              <>
                <button
                  type="button"
                  class="linkish"
                  onClick={() => {
                    open.value = questionOf(p.path);
                  }}
                >
                  {questions[questionOf(p.path) - 1]?.words}
                </button>{" "}
              </>
            )}
            {[fieldOf(p.path), p.read].filter(Boolean).join(" ")}
            {(fieldOf(p.path) || p.read) && ". "}
            {p.path === "" ? "" : `${say.wanted}: `}
            {p.want.replace(/\.$/, "")}.
            {p.nearest && (
              <>
                {" "}
                {say.nearest} <strong>{p.nearest}</strong>
              </>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** On to the next question, once all that was typed into this one can be read; else to what cannot. */
async function goOn(n: number, form: HTMLFormElement): Promise<void> {
  await understood();
  if (!unread(draft.value).includes(n)) {
    problems.value = problems.value.filter((p) => questionOf(p.path) !== n);
    open.value = n + 1;
  } else form.querySelector<HTMLElement>('[aria-invalid="true"], .bad')?.focus();
}

function Step({ question, n, answer }: { question: Question; n: number; answer: string }) {
  const isOpen = open.value === n;
  const last = n === questions.length;
  const form = useRef<HTMLFormElement>(null);
  const was = useRef(isOpen);
  useEffect(() => {
    // The next question takes the focus, so that Enter goes on; the page's first does not.
    if (isOpen && !was.current)
      form.current?.querySelector<HTMLElement>("input:checked, input:not([type=radio]), select")?.focus();
    was.current = isOpen;
  }, [isOpen]);
  return (
    <li class={isOpen ? "five-step open" : "five-step"}>
      <h2>
        <button
          type="button"
          class="five-head"
          aria-expanded={isOpen}
          onClick={() => {
            open.value = isOpen ? 0 : n;
          }}
        >
          <span class="five-n" aria-hidden="true">
            {n}
          </span>
          <span class="five-question">{question.words}</span>
          <span class="five-answer">{answer}</span>
        </button>
      </h2>
      {isOpen && (
        <form
          ref={form}
          class="five-form"
          onSubmit={(e) => {
            e.preventDefault();
            if (last) void draw();
            else void goOn(n, e.currentTarget);
          }}
        >
          <Told of={n} />
          <question.Answer />
          {!last && (
            <button type="submit" class="go">
              {say.next}
            </button>
          )}
          {last && <button type="submit" class="hidden" tabIndex={-1} aria-hidden="true" />}
        </form>
      )}
    </li>
  );
}

/** Five questions beside the room that they make. */
export function Five() {
  const d = draft.value;
  const told = sentences(d, offer.value);
  const now = questions[open.value - 1];
  const title = useSignal(`five-title`);
  if (made.value) return <Done made={made.value} existing={d.existing} again={again} />;
  return (
    <main class={open.value === 0 ? "five folded" : "five"}>
      <div class="five-ask">
        <h1>{d.existing ? say.standing : say.five}</h1>
        {offerFault.value !== "" && (
          <p class="trouble" role="alert">
            {offerFault.value}
          </p>
        )}
        <div class="measure wide">
          <label for={title.value}>{say.titleOf}</label>
          <input
            id={title.value}
            type="text"
            maxLength={120}
            placeholder={say.titleHint}
            value={d.title}
            onInput={(e) => change({ title: e.currentTarget.value })}
          />
        </div>
        <ol class="five-steps">
          {questions.map((q, i) => (
            <Step key={q.words} question={q} n={i + 1} answer={told[i] ?? ""} />
          ))}
        </ol>
        <Told of={0} />
        <div class="five-end">
          <button type="button" class="go strong" disabled={under.value >= 0} onClick={() => void draw()}>
            {d.existing ? say.drawStanding : say.draw}
          </button>
          <p class="soft" role="status">
            {under.value >= 0 ? say.drawing(doing.value, under.value) : say.enough}
          </p>
        </div>
      </div>
      <div class="five-beside">
        <Plan set={now?.set} hint={now?.hint} />
      </div>
    </main>
  );
}
