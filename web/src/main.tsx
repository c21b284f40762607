import { render } from "preact";
import type { Job } from "./api/types.gen.ts";
import { Head } from "./head.tsx";
import { Hatches } from "./paint/scene.tsx";
import { Panel } from "./panel.tsx";
import { Stage } from "./stage.tsx";
import { followAddress, question } from "./state/ask.ts";
import { begin, job, outdated, plan, questions } from "./state/data.ts";
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

function Problems({ job }: { job: Job }) {
  if (job.problems.length === 0) return null;
  return (
    <section class="problems" aria-label={words.unreadable}>
      <h2>
        {words.unreadable}: {job.file}
      </h2>
      <ul>
        {job.problems.map((p) => (
          <li key={`${p.path}${p.read}${p.want}`}>
            <code>{p.path || job.file}</code>
            <p>
              {p.read && <>read {p.read}, </>}
              {p.want}
              {p.nearest && <>; nearest is “{p.nearest}”</>}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Page() {
  const now = job.value.value;
  if (!now) return <p class="waiting">{job.fault.value || words.loading}</p>;
  const head = now.head;
  const asked = questions.value.value?.questions ?? [];
  document.title = head ? `${head.title} – dropleg` : "dropleg";
  return (
    <div class={`page${now.old || !reached.value ? " old" : ""}`}>
      <Notice job={now} />
      {head && <Head head={head} />}
      <Problems job={now} />
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
