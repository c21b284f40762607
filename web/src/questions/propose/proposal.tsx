import { useEffect } from "preact/hooks";
import type { ScreenProposalRow } from "../../api/types.gen.ts";
import { Verdict } from "../../paint/mark.tsx";
import { alternative, light } from "../../state/ask.ts";
import { shown } from "../../state/live.ts";
import { layNothingOver, layOver, over } from "../../state/over.ts";
import { step, stepOnJob } from "../../state/post.ts";
import { proposeWords as say } from "../../words/panels.ts";
import type { Asked } from "./ask.ts";

/** How far the program is, and a way to stop it. */
export function Progress({ of }: { of: Pick<Asked<never, unknown>, "under" | "cancel"> }) {
  const u = of.under.value;
  if (!u) return null;
  return (
    <div class="propose-progress" role="status">
      <p>{u.doing === "" ? say.begun : say.doing(u.doing, u.done, u.total)}</p>
      <progress max={u.total || 1} value={u.total > 0 ? u.done : undefined} aria-label={say.progress} />
      <button type="button" class="go" onClick={of.cancel}>
        {say.cancel}
      </button>
    </div>
  );
}

async function take(of: Asked<never>, p: ScreenProposalRow): Promise<void> {
  if (!p.step) return;
  const done = await step(p.step);
  of.told.value = done.done ? say.taken(p.name) : done.why;
  if (done.done) of.found.value = null;
}

async function keepBeside(of: Asked<never>, p: ScreenProposalRow): Promise<void> {
  if (!p.step) return;
  const made = await stepOnJob({ do: "put", what: "plan", thing: { name: p.name, edits: [p.step] } });
  of.told.value = made.done ? say.kept(p.name) : made.why;
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

/** What stands, sort by sort: enough, or what of it must change. */
function Grows({ p }: { p: ScreenProposalRow }) {
  return (
    <table class="rows grows">
      <caption>{say.grows}</caption>
      <tbody>
        {p.grows.map((g) => (
          <tr key={g.what} class={g.enough ? "soft" : ""}>
            <th scope="row">{g.what}</th>
            <td>
              {g.enough && say.enough}
              {g.changes.map((c) => (
                <p key={`${c.id}${c.to}`} onPointerEnter={() => light(c.id)} onPointerLeave={() => light()}>
                  {c.words}: {c.from} → <strong>{c.to}</strong>
                </p>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Proposal({ of, p }: { of: Asked<never>; p: ScreenProposalRow }) {
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
      {p.cautions.map((c) => (
        <p key={c} class="safe">
          {c}
        </p>
      ))}
      <p class="soft">{p.proof}</p>
      {p.grows.length > 0 ? <Grows p={p} /> : <Changes p={p} />}
      {p.open.length > 0 && <h4>{say.open}</h4>}
      {p.open.map((o) => (
        <p key={o.title} class="waits">
          {o.title}
        </p>
      ))}
      {p.notes.map((n) => (
        <p key={n} class="soft">
          {n}
        </p>
      ))}
      {p.step && (
        <p class="propose-acts">
          <button type="button" class="go strong" onClick={() => void take(of, p)}>
            {say.take}
          </button>
          <button type="button" class="go" onClick={() => void keepBeside(of, p)}>
            {say.beside}
          </button>
          {p.lines.length > 0 && (
            <button
              type="button"
              class="go"
              aria-pressed={over.value.name === p.name}
              onClick={() => (over.value.name === p.name ? layNothingOver() : layOver(p.name, p.lines))}
            >
              {say.over}
            </button>
          )}
        </p>
      )}
    </li>
  );
}

/** How far it is, what came of it, and each proposal to be taken, kept beside the job, or left. */
export function Proposals({ of }: { of: Asked<never> }) {
  const found = of.found.value;
  // What lies over the drawing goes with the answer that it is of.
  useEffect(() => layNothingOver, [found]);
  return (
    <>
      <Progress of={of} />
      {of.trouble.value !== "" && (
        <p class="trouble" role="alert">
          {of.trouble.value}
        </p>
      )}
      {of.told.value !== "" && <p role="status">{of.told.value}</p>}
      {found && (
        <>
          {found.revision !== shown.value && <p class="trouble">{say.older}</p>}
          {found.answer.refused.map((r) => (
            <section key={r.title} class="propose-none">
              <h3>{r.title}</h3>
              <p>{r.why}</p>
            </section>
          ))}
          <ul class="proposals" aria-label={say.list}>
            {found.answer.rows.map((p) => (
              <Proposal key={p.name} of={of} p={p} />
            ))}
          </ul>
        </>
      )}
    </>
  );
}
