import { useEffect, useRef } from "preact/hooks";
import type { ScreenQuestion } from "./api/types.gen.ts";
import { Verdict } from "./paint/mark.tsx";
import { Build } from "./questions/build/build.tsx";
import { Buy } from "./questions/buy/buy.tsx";
import { Cost } from "./questions/cost/cost.tsx";
import { Days } from "./questions/days/days.tsx";
import { Facts } from "./questions/facts/facts.tsx";
import { Findings } from "./questions/findings/findings.tsx";
import { Hold } from "./questions/hold/hold.tsx";
import { Keep } from "./questions/keep/keep.tsx";
import { Way } from "./questions/outlet/way.tsx";
import { Outlets } from "./questions/outlets/outlets.tsx";
import { panels } from "./questions/panels.ts";
import { Prove } from "./questions/prove/prove.tsx";
import { ThingCard } from "./questions/thing/card.tsx";
import { Water } from "./questions/water/water.tsx";
import { question as asked, chosen, panel } from "./state/ask.ts";
import { build, findings, keep, outdated, prove, thing, way } from "./state/data.ts";
import { outletRows } from "./state/live.ts";
import { words } from "./words/words.ts";

/** What goes out to the shop in a pocket: it does not wait for the questions, which take the whole design to answer. */
export const pocket = {
  build: { List: Build, answer: build },
  prove: { List: Prove, answer: prove },
  keep: { List: Keep, answer: keep },
};

function Asked({ question }: { question: ScreenQuestion | undefined }) {
  const work = pocket[(question?.list ?? asked.value) as keyof typeof pocket];
  const early = question ? undefined : work?.answer.value.value;
  const cautions = question?.cautions ?? early?.cautions ?? [];
  return (
    <section class={`asked-card ${question?.mark ?? ""}`} aria-live="polite">
      {question && <p class="asked-question">{question.question}</p>}
      {question && (
        <h2>
          <Verdict mark={question.mark} />
          {question.answer}
        </h2>
      )}
      {early && <h2>{early.sentence}</h2>}
      {question && !work && <Facts facts={question.facts} />}
      {question?.id === "pressure" && (
        <button
          type="button"
          class="linkish"
          onClick={() => {
            panel.value = "weak";
          }}
        >
          {words.starves}
        </button>
      )}
      {question?.list === "outlets" && <Outlets rows={outletRows.value} />}
      {question?.list === "days" && <Days />}
      {question?.list === "water" && <Water />}
      {question?.list === "hold" && <Hold />}
      {question?.list === "cost" && <Cost />}
      {question?.list === "purchase" && <Buy />}
      {work && <work.List />}
      {question && work && <Facts facts={question.facts} />}
      {cautions.length > 0 && (
        <section class="cautions" aria-label={words.cautions}>
          <h3>{words.cautions}</h3>
          <ul>
            {cautions.map((c) => (
              <li key={c}>{c}</li>
            ))}
          </ul>
        </section>
      )}
    </section>
  );
}

/** What stands beside the drawing: the question asked, or the thing chosen, and the findings on it. */
export function Panel({ question }: { question: ScreenQuestion | undefined }) {
  const Open = panels.find((p) => p.id === panel.value)?.Panel;
  const place = useRef<HTMLElement>(null);
  // On a phone the panel lies under the drawing: whoever opens one is taken there.
  useEffect(() => {
    const top = place.current?.getBoundingClientRect().top ?? 0;
    if (top > innerHeight / 2) place.current?.scrollIntoView({ block: "start" });
  }, [Open]);
  if (Open)
    return (
      <section class="panel" aria-label={words.beside} ref={place}>
        <Open />
      </section>
    );
  const at = chosen.value;
  const fault = way.fault.value || thing.fault.value;
  const all = findings.value.value?.findings ?? [];
  const bearing =
    at !== ""
      ? all.filter((f) => f.where.some((w) => w.id === at))
      : all.filter((f) => question?.codes.includes(f.code));
  return (
    <section
      class={`panel${outdated.value ? " behind" : ""}`}
      aria-label={words.beside}
      aria-busy={outdated.value}
    >
      {at === "" && (question ?? asked.value in pocket) && <Asked question={question} />}
      {at !== "" && way.value.value && <Way way={way.value.value} />}
      {at !== "" && thing.value.value && <ThingCard thing={thing.value.value} />}
      {at !== "" && fault !== "" && <p class="trouble">{fault}</p>}
      {findings.value.value ? (
        <Findings bearing={bearing} all={all} on={at !== "" ? "here" : "on this question"} />
      ) : (
        <p class="soft">{findings.fault.value || words.checking}</p>
      )}
    </section>
  );
}
