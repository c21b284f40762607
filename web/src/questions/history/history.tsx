import { computed, signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { HistoryStep } from "../../api/types.gen.ts";
import { job } from "../../state/data.ts";
import { done } from "../../state/hints.ts";
import { byDay, fault, fetched, fetchSteps, followSteps, more, steps } from "../../state/history.ts";
import { goTo } from "../../state/post.ts";
import { historyWords as say } from "../../words/panels.ts";
import { clock } from "../../words/when.ts";
import { going, standing } from "./standing.ts";

/** The step whose going back is looked at; −1 for none. */
const looked = signal(-1);

const after = computed(() => standing(steps.value));

const shownSteps = 6;

function Some({ title, rows }: { title: string; rows: readonly HistoryStep[] }) {
  if (rows.length === 0) return null;
  return (
    <>
      <p>{title}</p>
      <ul class="back-list">
        {rows.slice(0, shownSteps).map((s) => (
          <li key={s.revision}>{s.words}</li>
        ))}
        {rows.length > shownSteps && <li class="soft">{say.further(rows.length - shownSteps)}</li>}
      </ul>
    </>
  );
}

/** What going back to a step would do, before it is done. */
function Preview({ to }: { to: number }) {
  const { taken, brought } = going(steps.value, to);
  const nothing = taken.length === 0 && brought.length === 0;
  const yes = useRef<HTMLButtonElement>(null);
  useEffect(() => yes.current?.focus(), []);
  return (
    <div class="back-preview">
      {nothing && <p>{say.same}</p>}
      <Some title={say.takes(taken.length)} rows={taken} />
      <Some title={say.brings(brought.length)} rows={brought} />
      {to === 0 && more.value && <p class="soft">{say.some}</p>}
      <p class="back-go">
        {!nothing && (
          <button
            ref={yes}
            type="button"
            class="go strong"
            onClick={() => {
              looked.value = -1;
              void goTo(to);
            }}
          >
            {say.goBack}
          </button>
        )}
        <button
          type="button"
          class="go"
          onClick={() => {
            looked.value = -1;
          }}
        >
          {say.leave}
        </button>
      </p>
    </div>
  );
}

function Row({ step, newest, stands }: { step: HistoryStep; newest: boolean; stands: boolean }) {
  // An alternative that is there no more has no name any longer.
  const plan = step.plan && (job.value.value?.plans.find((p) => p.id === step.plan)?.words ?? say.another);
  const notes = [
    step.by || say.nobody,
    plan && say.in(plan),
    newest ? say.now : "",
    stands ? "" : say.undone,
  ];
  const open = looked.value === step.revision;
  return (
    <li class={`${stands ? "" : "undone"}${open ? " looked" : ""}`}>
      <button
        type="button"
        class="step-row"
        aria-expanded={open}
        disabled={newest}
        onClick={() => {
          looked.value = open ? -1 : step.revision;
        }}
      >
        <time dateTime={step.when}>{clock(new Date(step.when))}</time>
        <span class="step-words">{step.words}</span>
        <span class="soft">{notes.filter(Boolean).join(", ")}</span>
      </button>
      {open && <Preview to={step.revision} />}
    </li>
  );
}

/** Arrow keys go from step to step. */
function walk(e: KeyboardEvent & { currentTarget: HTMLElement }): void {
  const by = { ArrowDown: 1, ArrowUp: -1 }[e.key];
  const rows = [...e.currentTarget.querySelectorAll<HTMLButtonElement>(".step-row:not(:disabled)")];
  const at = rows.indexOf(document.activeElement as HTMLButtonElement);
  if (e.key === "Escape" && looked.value >= 0) {
    looked.value = -1;
    e.stopPropagation();
    e.preventDefault();
  } else if (at >= 0 && (by || e.key === "Home" || e.key === "End")) {
    e.preventDefault();
    const to = by ? at + by : e.key === "Home" ? 0 : rows.length - 1;
    rows[Math.min(Math.max(to, 0), rows.length - 1)]?.focus();
  }
}

/** Everything that was done, and the way back to any of it. */
export function History() {
  useEffect(() => {
    done("back");
    return followSteps();
  }, []);
  const rows = steps.value;
  const newest = rows[0]?.revision ?? -1;
  const stand = after.value.get(newest) ?? new Set<number>();
  const now = new Date();
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the buttons inside take the keys
    <section class="history" onKeyDown={walk}>
      <h2>{say.title}</h2>
      <p class="soft">{say.lead}</p>
      {fault.value !== "" && <p class="trouble">{fault.value}</p>}
      {fetched.value < 0 && fault.value === "" && <p class="soft">{say.loading}</p>}
      {byDay(rows, now).map(([day, list]) => (
        <section key={day} aria-label={day}>
          <h3>{day}</h3>
          <ol>
            {list.map((s) => (
              <Row
                key={s.revision}
                step={s}
                newest={s.revision === newest}
                stands={s.kind !== "edit" || stand.has(s.revision)}
              />
            ))}
          </ol>
        </section>
      ))}
      {more.value ? (
        <button type="button" class="go" onClick={() => void fetchSteps(rows.at(-1)?.revision ?? 0)}>
          {say.older}
        </button>
      ) : (
        fetched.value >= 0 && (
          <ol class="history-first">
            <li class={looked.value === 0 ? "looked" : ""}>
              <button
                type="button"
                class="step-row"
                aria-expanded={looked.value === 0}
                disabled={rows.length === 0}
                onClick={() => {
                  looked.value = looked.value === 0 ? -1 : 0;
                }}
              >
                <span class="step-words">{say.beginning}</span>
                <span class="soft">{say.beginningNote}</span>
              </button>
              {looked.value === 0 && <Preview to={0} />}
            </li>
          </ol>
        )
      )}
    </section>
  );
}
