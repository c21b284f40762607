import { signal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import type { ScreenColumn } from "../../api/types.gen.ts";
import { Verdict } from "../../paint/mark.tsx";
import { alternative } from "../../state/ask.ts";
import { job } from "../../state/data.ts";
import { adopt, stepOnJob } from "../../state/post.ts";
import { planWords as say } from "../../words/panels.ts";
import { compare } from "./compare.ts";

/** What is being asked about an alternative: its new name, or whether it is really meant. */
const asked = signal<{ plan: string; what: "rename" | "remove" | "adopt" } | null>(null);

const plans = () => job.value.value?.plans ?? [];

/** A name that no alternative has yet: plan B, plan C … */
function freshName(): string {
  const taken = new Set(plans().map((p) => p.words));
  for (let n = 1; ; n++) if (!taken.has(say.fresh(n)) || n > 24) return say.fresh(n);
}

/** Makes an alternative of the job as it stands, or with the steps of the one shown, and goes over to it. */
async function make(name: string): Promise<void> {
  const from = compare.value.value?.columns.find((c) => c.plan === alternative.value);
  const edits = alternative.value !== "" && from ? from.edits : [];
  const made = await stepOnJob({ do: "put", what: "plan", thing: { name, edits } });
  if (made.done) alternative.value = made.made[0] ?? "";
}

async function act(what: "remove" | "adopt", plan: string): Promise<void> {
  asked.value = null;
  const done = await (what === "adopt" ? adopt(plan) : stepOnJob({ edit: "remove", id: plan }));
  if (done.done && alternative.value === plan) alternative.value = "";
}

function Rename({ plan, name }: { plan: string; name: string }) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);
  return (
    <form
      class="plan-ask"
      onSubmit={(e) => {
        e.preventDefault();
        const value = new FormData(e.currentTarget).get("name")?.toString().trim() ?? "";
        asked.value = null;
        if (value !== "" && value !== name) void stepOnJob({ edit: "set", id: plan, key: "name", value });
      }}
    >
      <label for={id}>{say.nameOf}</label>
      <input ref={field} id={id} name="name" type="text" maxLength={60} defaultValue={name} />
      <button type="submit" class="go">
        {say.keep}
      </button>
    </form>
  );
}

function Sure({ plan, what, words }: { plan: string; what: "remove" | "adopt"; words: string }) {
  return (
    <div class="plan-ask" role="alert">
      <p>{words}</p>
      <button type="button" class="go strong" onClick={() => void act(what, plan)}>
        {say.yes}
      </button>
      <button
        type="button"
        class="go"
        onClick={() => {
          asked.value = null;
        }}
      >
        {say.no}
      </button>
    </div>
  );
}

function Plan({ id, name }: { id: string; name: string }) {
  const here = alternative.value === id;
  const now = asked.value?.plan === id ? asked.value.what : "";
  const ask = (what: "rename" | "remove" | "adopt") => (
    <button
      type="button"
      class="linkish"
      aria-label={`${say[what]}: ${name}`}
      onClick={() => {
        asked.value = now === what ? null : { plan: id, what };
      }}
    >
      {say[what]}
    </button>
  );
  return (
    <li class={here ? "plan-row here" : "plan-row"}>
      <label>
        <input
          type="radio"
          name="alternative"
          checked={here}
          onChange={() => {
            alternative.value = id;
          }}
        />
        <strong>{name}</strong>
        {here && <span class="soft">{say.working}</span>}
      </label>
      {id !== "" && (
        <p class="plan-acts">
          {ask("adopt")}
          {ask("rename")}
          {ask("remove")}
        </p>
      )}
      {now === "rename" && <Rename plan={id} name={name} />}
      {now === "remove" && <Sure plan={id} what="remove" words={say.removeSure(name)} />}
      {now === "adopt" && <Sure plan={id} what="adopt" words={say.adoptSure(name)} />}
    </li>
  );
}

const measures: readonly (readonly [string, (c: ScreenColumn) => preact.ComponentChildren])[] = [
  [
    say.worst,
    (c) => (
      <>
        <span class="plan-figure">
          <Verdict mark={c.state} />
          {c.worst}
        </span>
        <span class="soft">{[c.margin, c.at].filter(Boolean).join(", ")}</span>
      </>
    ),
  ],
  [say.short, (c) => say.of(c.short, c.outlets)],
  [say.parts, (c) => c.pieces],
  [say.line, (c) => c.line],
  [
    say.price,
    (c) => (
      <>
        {c.price || <span class="soft">{say.noPrice}</span>}
        {c.price && c.unpriced > 0 && <span class="soft">{say.unpriced(c.unpriced)}</span>}
      </>
    ),
  ],
];

function Words({ title, rows }: { title: string; rows: readonly string[] }) {
  if (rows.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {rows.map((r) => (
          <li key={r}>{r}</li>
        ))}
      </ul>
    </>
  );
}

/** The job and its alternatives, one column each, and the differences in words. */
function Compare() {
  const answer = compare.value.value;
  if (!answer) return <p class="soft">{compare.fault.value || say.comparing}</p>;
  return (
    <div class={compare.awaited.value ? "compare behind" : "compare"}>
      <h3 id="side">{say.side}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is moved by the arrow keys */}
      <section class="compare-scroll" aria-labelledby="side" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <td />
              {answer.columns.map((c) => (
                <th key={c.plan} scope="col" class={c.plan === alternative.value ? "here" : ""}>
                  {c.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {measures.map(([words, of]) => (
              <tr key={words}>
                <th scope="row">{words}</th>
                {answer.columns.map((c) => (
                  <td key={c.plan} class={c.plan === alternative.value ? "here" : ""}>
                    {of(c)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p class="soft">{answer.note}</p>
      {answer.columns.slice(1).map((c) => (
        <section key={c.plan} class="compare-words" aria-label={c.name}>
          <h3>{c.name}</h3>
          <Words title={say.comes} rows={c.against.length > 0 ? c.against : [say.alike]} />
          <Words title={say.changed} rows={c.steps} />
          <Words title={say.left} rows={c.left} />
        </section>
      ))}
    </div>
  );
}

/** Other ways to build the shop, beside the job. */
export function Alternatives() {
  const id = useId();
  const rows = plans();
  const fresh = freshName();
  const shown = rows.find((p) => p.id === alternative.value);
  return (
    <section class="alternatives">
      <h2>{say.title}</h2>
      <p class="soft">{rows.length === 0 ? say.none : say.lead}</p>
      {rows.length > 0 && (
        <ul>
          <Plan id="" name={say.job} />
          {rows.map((p) => (
            <Plan key={p.id} id={p.id} name={p.words} />
          ))}
        </ul>
      )}
      <form
        key={fresh}
        class="plan-ask plan-make"
        onSubmit={(e) => {
          e.preventDefault();
          void make(new FormData(e.currentTarget).get("name")?.toString().trim() || fresh);
        }}
      >
        <label for={id}>{say.nameOf}</label>
        <input id={id} name="name" type="text" maxLength={60} defaultValue={fresh} />
        <button type="submit" class="go">
          {say.make}
        </button>
        {shown && <p class="soft">{say.another(shown.words)}</p>}
      </form>
      {rows.length > 0 && <Compare />}
    </section>
  );
}
