import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { ScreenProposalRow } from "../../api/types.gen.ts";
import { Verdict } from "../../paint/mark.tsx";
import { alternative, chosen } from "../../state/ask.ts";
import { shown } from "../../state/live.ts";
import { step, stepOnJob } from "../../state/post.ts";
import { proposeWords as say } from "../../words/panels.ts";
import { ask, cancel, found, trouble, under, type Wish } from "./ask.ts";

const wish = signal<Wish>({ lines: false, sizes: true, keep: true, only: [], growth: 0 });
/** What was said of the last proposal that was taken or kept. */
const told = signal("");

const change = (more: Partial<Wish>) => {
  wish.value = { ...wish.value, ...more };
};

function Choice({ words, on, set }: { words: string; on: boolean; set: (on: boolean) => void }) {
  return (
    <label class="propose-choice">
      <input type="checkbox" checked={on} onChange={(e) => set(e.currentTarget.checked)} />
      <span>{words}</span>
    </label>
  );
}

function Form() {
  const w = wish.value;
  const at = chosen.value;
  return (
    <form
      class="propose-form"
      onSubmit={(e) => {
        e.preventDefault();
        told.value = "";
        void ask(w);
      }}
    >
      <fieldset>
        <legend>{say.what}</legend>
        <Choice words={say.lines} on={w.lines} set={(lines) => change({ lines })} />
        <Choice words={say.sizes} on={w.sizes} set={(sizes) => change({ sizes })} />
      </fieldset>
      <fieldset>
        <legend>{say.bounds}</legend>
        <Choice words={say.keep} on={w.keep} set={(keep) => change({ keep })} />
        {at !== "" && (
          <Choice words={say.only} on={w.only.length > 0} set={(on) => change({ only: on ? [at] : [] })} />
        )}
        <label class="propose-growth">
          <span>{say.growth}</span>
          <select value={`${w.growth}`} onChange={(e) => change({ growth: Number(e.currentTarget.value) })}>
            {[0, 0.2, 0.5, 1].map((g) => (
              <option key={g} value={`${g}`}>
                {say.growthOf(g)}
              </option>
            ))}
          </select>
        </label>
      </fieldset>
      <button type="submit" class="go strong" disabled={!w.lines && !w.sizes}>
        {say.ask}
      </button>
    </form>
  );
}

function Progress() {
  const u = under.value;
  if (!u) return null;
  return (
    <div class="propose-progress" role="status">
      <p>{u.doing === "" ? say.begun : say.doing(u.doing, u.done, u.total)}</p>
      <progress max={u.total || 1} value={u.total > 0 ? u.done : undefined} aria-label={say.progress} />
      <button type="button" class="go" onClick={cancel}>
        {say.cancel}
      </button>
    </div>
  );
}

async function take(p: ScreenProposalRow): Promise<void> {
  if (!p.step) return;
  const done = await step(p.step);
  told.value = done.done ? say.taken(p.name) : done.why;
  if (done.done) found.value = null;
}

async function keepBeside(p: ScreenProposalRow): Promise<void> {
  if (!p.step) return;
  const made = await stepOnJob({ do: "put", what: "plan", thing: { name: p.name, edits: [p.step] } });
  told.value = made.done ? say.kept(p.name) : made.why;
  if (made.done) alternative.value = made.made[0] ?? "";
}

function Changes({ p }: { p: ScreenProposalRow }) {
  if (p.changes.length === 0) return <p class="soft">{say.same}</p>;
  return (
    <details>
      <summary>{say.changes(p.changes.length)}</summary>
      <ul class="propose-changes">
        {p.changes.map((c) => (
          <li key={`${c.id}${c.words}`}>
            <span>{c.words}</span>{" "}
            <span class="propose-sizes">{[c.from, c.to].filter(Boolean).join(" → ")}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Proposal({ p }: { p: ScreenProposalRow }) {
  const facts: [string, string][] = [
    [say.worst, [p.worst, p.margin, p.at].filter(Boolean).join(", ")],
    [say.line, `${p.line}, ${say.pieces(p.pieces)}`],
  ];
  if (p.price) facts.push([say.price, p.price + (p.unpriced > 0 ? `, ${say.unpriced(p.unpriced)}` : "")]);
  return (
    <li class="proposal">
      <h3>
        <Verdict mark={p.state} />
        {p.name}
      </h3>
      {p.svg && <img src={`data:image/svg+xml,${encodeURIComponent(p.svg)}`} alt={say.drawing(p.name)} />}
      {p.words && <p>{p.words}</p>}
      <dl>
        {facts.map(([term, fact]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{fact}</dd>
          </div>
        ))}
      </dl>
      {p.against.length > 0 && <p>{say.against(p.against)}</p>}
      <p class="soft">{p.proof}</p>
      <Changes p={p} />
      {p.notes.map((n) => (
        <p key={n} class="soft">
          {n}
        </p>
      ))}
      {p.step && (
        <p class="propose-acts">
          <button type="button" class="go strong" onClick={() => void take(p)}>
            {say.take}
          </button>
          <button type="button" class="go" onClick={() => void keepBeside(p)}>
            {say.beside}
          </button>
        </p>
      )}
    </li>
  );
}

/** Lines and sizes that the program thinks up, to be taken, kept beside the job, or left. */
export function Propose() {
  useEffect(() => cancel, []);
  const answer = found.value;
  return (
    <section class="propose">
      <h2>{say.title}</h2>
      <p class="soft">{say.lead}</p>
      <Form />
      <Progress />
      {trouble.value !== "" && (
        <p class="trouble" role="alert">
          {trouble.value}
        </p>
      )}
      {told.value !== "" && <p role="status">{told.value}</p>}
      {answer && (
        <>
          {answer.revision !== shown.value && <p class="trouble">{say.older}</p>}
          {answer.proposals.refused.map((r) => (
            <section key={r.title} class="propose-none">
              <h3>{r.title}</h3>
              <p>{r.why}</p>
            </section>
          ))}
          <ul class="proposals" aria-label={say.title}>
            {answer.proposals.rows.map((p) => (
              <Proposal key={p.name} p={p} />
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
