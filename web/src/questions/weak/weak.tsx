import { useEffect } from "preact/hooks";
import type { FindAnswer } from "../../api/types.gen.ts";
import { Verdict } from "../../paint/mark.tsx";
import { light } from "../../state/ask.ts";
import { weak } from "../../state/data.ts";
import { fresh, note } from "../../state/outbox.ts";
import { weakWords as words } from "../../words/weak.ts";
import { words as page } from "../../words/words.ts";
import { Back } from "../back.tsx";
import { Calibrate } from "../calibrate/calibrate.tsx";
import { Held } from "../work.tsx";
import { Causes, places } from "./causes.tsx";
import { Complaint } from "./complaint.tsx";
import { other, proposed } from "./draft.ts";
import { Entry } from "./entry.tsx";

type State = "found" | "sound" | "open";

const stateOf = (a: FindAnswer): State => (a.found ? "found" : a.sound ? "sound" : "open");
const marks: Record<State, string> = { found: "not-yet", sound: "yes", open: "unknown" };

/** What stands out stays lit on the drawing while the panel lies open. */
function useLit(answer: FindAnswer | null | undefined): void {
  const [first, second] = answer?.causes ?? [];
  const ids = answer?.readings
    ? [first, second].filter((c, i) => c && (i === 0 || c.chance >= 0.5)).flatMap((c) => (c ? places(c) : []))
    : [];
  const key = ids.join(" ");
  useEffect(() => {
    light(...ids);
    return () => light();
  }, [key]);
}

function Next({ answer }: { answer: FindAnswer }) {
  if (!answer.next) return <p>{words.settled}</p>;
  const over = answer.found || answer.sound;
  return (
    <>
      <h3>{over ? words.surer : words.next}</h3>
      <p class="next-words">{answer.next.words}</p>
      <p class="soft">
        {answer.next.why} {answer.readings > 0 && answer.next.tells > 0 && words.tells(answer.next.tells)}
      </p>
    </>
  );
}

/** From a complaint to its cause: what was said, what is likely, what to read next. */
export function Weak() {
  const of = weak.value.value;
  const answer = of?.answer;
  useLit(answer);
  if (!of || !answer)
    return (
      <section class="weak work">
        <Back />
        <h2>{words.title}</h2>
        <p class="soft" role="status">
          {weak.fault.value || words.wait}
        </p>
      </section>
    );
  const state = stateOf(answer);
  const gone = new Set(fresh.value.map((r) => r.takes_back));
  return (
    <section class={`weak work ${state}`} aria-busy={weak.awaited.value}>
      <Back />
      <h2>{words.title}</h2>
      <Held />
      <Complaint of={of} />
      {answer.readings > 0 && (
        <section class="found-card" aria-live="polite">
          <h3>
            <Verdict mark={marks[state]} /> {words.marks[state]}
          </h3>
          <p>{answer.verdict}</p>
          {answer.supply !== "" && !answer.verdict.includes(answer.supply) && <p>{answer.supply}</p>}
        </section>
      )}
      {answer.readings === 0 && answer.supply !== "" && <p class="found-card">{answer.supply}</p>}
      <section class="next-card" aria-label={words.next}>
        <Next answer={answer} />
        {answer.next || other.value ? (
          <Entry of={of} />
        ) : (
          <button
            type="button"
            class="go"
            onClick={() => {
              other.value = proposed(undefined, String);
            }}
          >
            {words.else}
          </button>
        )}
      </section>
      {answer.readings > 0 && (
        <>
          <h3>{words.causes}</h3>
          <Causes answer={answer} />
          {answer.two_at_once >= 0.05 && <p class="soft">{words.two(words.chance(answer.two_at_once))}</p>}
        </>
      )}
      <section class="cautions" aria-label={page.cautions}>
        <h3>{page.cautions}</h3>
        <ul>
          {words.cautions.map((c) => (
            <li key={c}>{c}</li>
          ))}
        </ul>
      </section>
      {(of.taken.length > 0 || (answer.unused ?? []).length > 0) && <h3>{words.taken}</h3>}
      <ul class="taken">
        {of.taken
          .filter((t) => !gone.has(t.record))
          .map((t) => (
            <li key={t.record}>
              <span>{t.words}</span>
              <button
                type="button"
                class="linkish"
                onClick={() => note({ kind: "note", takes_back: t.record })}
              >
                {words.takeBack}
                <span class="hidden">: {t.words}</span>
              </button>
            </li>
          ))}
        {(answer.unused ?? []).map((u) => (
          <li key={u} class="waits">
            {words.unused}: {u}
          </li>
        ))}
      </ul>
      {of.taken.length > 0 && <Calibrate />}
    </section>
  );
}
