import { render } from "preact";
import type { Job } from "./api/types.gen.ts";
import { Head } from "./head.tsx";
import { Hatches } from "./paint/scene.tsx";
import { Panel } from "./panel.tsx";
import { Stage } from "./stage.tsx";
import { followAddress, question } from "./state/ask.ts";
import { begin, job, openWorst, outdated, plan, questions } from "./state/data.ts";
import { follow, reached } from "./state/live.ts";
import { followTheme } from "./state/theme.ts";
import { Strip } from "./strip.tsx";
import "./style/page.css";
import { words } from "./words/words.ts";

/** Says it wherever what is shown may not be the newest. */
function Notice({ job }: { job: Job | null }) {
  const lines: string[] = [];
  if (!reached.value) lines.push(words.cannotReach);
  if (job?.old) lines.push(words.old);
  else if (outdated.value) lines.push(words.reloading);
  return (
    <div class="notice" role="status">
      {lines.map((l) => (
        <p key={l}>{l}</p>
      ))}
    </div>
  );
}

/** What keeps the file from being read: all of it, each with its place and the word that was probably meant. */
function Problems({ job }: { job: Job }) {
  const n = job.problems.length;
  if (n === 0) return null;
  const title = `${words.unreadable}: ${job.file}`;
  return (
    <section class={`problems${job.head ? "" : " alone"}`} aria-label={title}>
      {job.head ? <h2>{title}</h2> : <h1>{title}</h1>}
      <p class="soft">
        {n === 1 ? "One thing keeps" : `${n} things keep`} it from being read. {words.savedAgain}
      </p>
      <ol>
        {job.problems.map((p) => (
          <li key={`${p.path}${p.read}${p.want}`}>
            <code>{p.path || job.file}</code>
            <dl>
              {p.nearest && (
                <div class="nearest">
                  <dt>Meant?</dt>
                  <dd>
                    <strong>{p.nearest}</strong>
                  </dd>
                </div>
              )}
              {p.read && (
                <div>
                  <dt>Read</dt>
                  <dd>{p.read}</dd>
                </div>
              )}
              <div>
                <dt>Wanted</dt>
                <dd>{p.want}</dd>
              </div>
            </dl>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Page() {
  const now = job.value.value;
  if (!now) return <p class="waiting">{job.fault.value || words.loading}</p>;
  const head = now.head;
  const asked = questions.value.value?.questions ?? [];
  document.title = `${head ? head.title : now.file} – dropleg`;
  return (
    <div class={`page${head ? "" : " unread"}${now.old || !reached.value ? " old" : ""}`}>
      <Notice job={now} />
      {head && <Head head={head} />}
      {head ? (
        <Problems job={now} />
      ) : (
        <main class="stage">
          <Problems job={now} />
        </main>
      )}
      {head && <Strip questions={asked} />}
      {head && (
        <Stage head={head} plan={plan.value.value} stale={now.old || plan.awaited.value || !reached.value} />
      )}
      {head && <Panel question={asked.find((q) => q.id === question.value)} />}
    </div>
  );
}

followTheme();
followAddress();
begin();
openWorst();
follow();
const root = document.getElementById("root");
if (root) {
  render(
    <>
      <Hatches />
      <Page />
    </>,
    root,
  );
}
