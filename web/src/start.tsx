import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { ChooseTheme } from "./choose-theme.tsx";
import type { System } from "./start/answers.ts";
import { Begin, Empty, Examples } from "./start/begin.tsx";
import { bring, busy, wrong } from "./start/bring.ts";
import { anew, draft, offer, readUnits, takeUnits } from "./start/draft.ts";
import { Five, fromTheTop } from "./start/five.tsx";
import { fetchJobs, jobs, jobsFault, Kept } from "./start/jobs.tsx";
import { Parts } from "./start/parts.tsx";
import { Choice } from "./start/pick.tsx";
import { Problems } from "./start/problems.tsx";
import { followWhere, type Where, where } from "./start/where.ts";
import { chainWords as chain } from "./words/chain.ts";
import { startWords as say } from "./words/start.ts";
import { words } from "./words/words.ts";

const systems: readonly (readonly [System, string])[] = [
  ["metric", "m, bar"],
  ["us", "ft, psi"],
  ["mixed", "bar, psi"],
];

function Top() {
  return (
    <header class="head start-head">
      {where.value === "" ? (
        <p class="mark">dropleg</p>
      ) : (
        <a class="mark" href="/">
          <span aria-hidden="true">←</span> {say.home}
        </a>
      )}
      <div class="switches">
        <Choice
          legend={words.units}
          name="units"
          quiet
          value={draft.value.units}
          rows={systems}
          took={takeUnits}
        />
        <ChooseTheme />
      </div>
    </header>
  );
}

/** What went wrong, and what is on its way. */
function Told() {
  const now = wrong.value;
  return (
    <>
      <p class={busy.value === "" ? "hidden" : "busy"} role="status">
        {busy.value}
      </p>
      {now && (
        <Problems
          title={now.title}
          rows={now.problems}
          close={() => {
            wrong.value = null;
          }}
        />
      )}
      {jobsFault.value && (
        <section class="problems begin-problems" role="alert">
          <h2>{jobsFault.value.refused ? say.token : jobsFault.value.words}</h2>
          {jobsFault.value.refused ? (
            <p>{say.tokenHow}</p>
          ) : (
            <button type="button" class="go" onClick={() => void fetchJobs()}>
              {say.again}
            </button>
          )}
        </section>
      )}
    </>
  );
}

/** The list of jobs, and every way to begin one: first what is kept, or where nothing is, how to begin. */
function List() {
  const any = (jobs.value?.jobs.length ?? 0) > 0;
  if (jobsFault.value?.refused)
    return (
      <main class="start">
        <h1>{say.title}</h1>
        <Told />
      </main>
    );
  return (
    <main class="start">
      <h1>{say.title}</h1>
      <p class="lead">{say.lead}</p>
      <Told />
      {any && <Kept />}
      <Begin />
      {!any && <Kept />}
      <Examples />
    </main>
  );
}

const titles: Readonly<Record<Where, string>> = {
  "": words.start.title,
  five: say.five,
  standing: say.standing,
  empty: say.empty,
  parts: chain.title,
};

/** The page without a job. */
export function Start() {
  const over = useSignal(false);
  useEffect(() => {
    takeUnits(readUnits());
    void fetchJobs();
    followWhere((to) => {
      wrong.value = null;
      document.title = `${titles[to]} – dropleg`;
      if (to === "") void fetchJobs();
      else {
        anew(to === "standing");
        fromTheTop();
      }
    });
    const files = (e: DragEvent) => e.dataTransfer?.types.includes("Files") ?? false;
    addEventListener("dragover", (e) => {
      if (!files(e)) return;
      e.preventDefault();
      over.value = true;
    });
    addEventListener("dragleave", (e) => {
      if (e.relatedTarget === null) over.value = false;
    });
    addEventListener("drop", (e) => {
      over.value = false;
      if (!files(e)) return;
      e.preventDefault();
      const file = e.dataTransfer?.files[0];
      if (file) void bring(file, draft.value.units);
    });
  }, []);
  return (
    <div class={over.value ? "start-page dropping" : "start-page"}>
      <Top />
      {where.value === "" && <List />}
      {where.value === "empty" && (
        <>
          <Told />
          <Empty />
        </>
      )}
      {where.value === "parts" && (
        <>
          <Told />
          <Parts />
        </>
      )}
      {(where.value === "five" || where.value === "standing") && offer.value && <Five />}
      {(where.value === "five" || where.value === "standing") && !offer.value && (
        <p class="waiting">{say.looking}</p>
      )}
      {over.value && <p class="drop-here">{say.dropHere}</p>}
    </div>
  );
}
