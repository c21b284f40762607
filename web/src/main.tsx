import { render } from "preact";
import type { Job } from "./api/types.gen.ts";
import { followKeys } from "./commands/commands.ts";
import { Head } from "./head.tsx";
import { Hatches } from "./paint/scene.tsx";
import { Panel, pocket } from "./panel.tsx";
import { Stage } from "./stage.tsx";
import { Start } from "./start.tsx";
import { jobId } from "./state/address.ts";
import { followAddress, panel, question } from "./state/ask.ts";
import { begin, followUnits, job, openWorst, questions } from "./state/data.ts";
import { followSupposed } from "./state/days.ts";
import { enter, enterAgain } from "./state/enter.ts";
import { follow, reached, storeTrouble } from "./state/live.ts";
import { followName } from "./state/name.ts";
import { keepOffline } from "./state/offline.ts";
import { followOutbox } from "./state/outbox.ts";
import { followLine, stuck, unsent } from "./state/post.ts";
import { followTheme } from "./state/theme.ts";
import { Strip } from "./strip.tsx";
import "./style/page.css";
import { layOut } from "./tools/all.ts";
import { take } from "./tools/tool.ts";
import { words } from "./words/words.ts";

/** Says it wherever what is shown may not be the newest, or is not kept. */
function Notice({ job }: { job: Job | null }) {
  const lines: string[] = [];
  if (!reached.value || stuck.value) lines.push(words.cannotReach);
  if (stuck.value && unsent.value > 0) lines.push(words.unsent(unsent.value));
  if (job?.old) lines.push(words.old);
  if (storeTrouble.value !== "") lines.push(storeTrouble.value);
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

/** A phone on the ladder: what is to be done next comes before the drawing. */
const atWork = () =>
  ["weak", "reading"].includes(panel.value) || (panel.value === "" && question.value in pocket);

function Page() {
  const now = job.value.value;
  if (!now)
    return (
      <main class="waiting">
        <p>{job.fault.value || words.loading}</p>
        {job.fault.value !== "" && <a href="/">{words.allJobs}</a>}
      </main>
    );
  const head = now.head;
  const asked = questions.value.value?.questions ?? [];
  document.title = `${head ? head.title : now.file} – dropleg`;
  return (
    <div
      class={`page${head ? "" : " unread"}${atWork() ? " at-work" : ""}${now.old || !reached.value ? " old" : ""}`}
    >
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
      {head && <Stage head={head} stale={now.old || !reached.value} />}
      {head && <Panel question={asked.find((q) => q.id === question.value)} />}
    </div>
  );
}

/** The page proper, once whoever came by a code has been let in. */
function show(): void {
  if (jobId !== "") {
    // An address may put a tool into the hand: that of the start page, for a floor plan that is still to be scaled.
    take(new URLSearchParams(location.hash.slice(1)).get("tool") ?? "select");
    followAddress();
    begin();
    followUnits();
    followSupposed();
    openWorst();
    followLine();
    followOutbox();
    followKeys();
    follow();
  }
  const root = document.getElementById("root");
  if (!root) return;
  render(
    <>
      <Hatches />
      {jobId === "" ? <Start /> : <Page />}
    </>,
    root,
  );
}

followTheme();
followName();
layOut();
enterAgain();
void enter().then(keepOffline).then(show);
