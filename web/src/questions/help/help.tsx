import { useSignal } from "@preact/signals";
import { type Command, commands } from "../../commands/commands.ts";
import { job } from "../../state/data.ts";
import { recall } from "../../state/hints.ts";
import { tools } from "../../tools/tool.ts";
import { helpWords as say } from "../../words/panels.ts";
import { words } from "../../words/words.ts";

function Keys({ title, rows }: { title: string; rows: readonly (readonly [string, string])[] }) {
  if (rows.length === 0) return null;
  return (
    <section aria-label={title}>
      <h4>{title}</h4>
      <dl class="key-list">
        {rows.map(([key, what]) => (
          <div key={key + what}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

const of = (where: Command["where"]) =>
  commands.filter((c) => c.where === where && c.shown !== "").map((c) => [c.shown, c.words] as const);

/** What a first plan took for granted stands in the job's note: its head, then one line each. */
function Assumed() {
  const note = job.value.value?.note ?? "";
  if (note === "") return null;
  const [head, ...rest] = note.split("\n");
  return (
    <>
      <h3>{rest.length > 0 ? say.assumed : say.about}</h3>
      <p>{head}</p>
      <ul class="assumed">
        {rest
          .filter((l) => l.trim() !== "")
          .map((l) => (
            <li key={l}>{l.replace(/^- /, "")}</li>
          ))}
      </ul>
    </>
  );
}

/** How to draw a shop, what was assumed, every key, and what to take care of. */
export function Help() {
  const told = useSignal(false);
  return (
    <section class="help">
      <h2>{say.title}</h2>
      <h3>{say.five}</h3>
      <ol class="help-steps">
        {say.steps.map(([what, how]) => (
          <li key={what}>
            <strong>{what}.</strong> {how}
          </li>
        ))}
      </ol>
      <p class="help-recall">
        <button
          type="button"
          class="go"
          onClick={() => {
            recall();
            told.value = true;
          }}
        >
          {say.recall}
        </button>
        <span class="soft" role="status">
          {told.value ? say.recalled : ""}
        </span>
      </p>
      <Assumed />
      <h3>{say.keys}</h3>
      <Keys
        title={say.tools}
        rows={tools.value.filter((t) => t.key !== "").map((t) => [t.key.toUpperCase(), t.words])}
      />
      <Keys title={say.page} rows={of("page")} />
      <Keys title={say.drawing} rows={of("drawing")} />
      <Keys title={say.placing} rows={words.placingKeys} />
      {tools.value
        .filter((t) => (t.keys?.length ?? 0) > 0)
        .map((t) => (
          <Keys key={t.id} title={say.of(t.words)} rows={t.keys ?? []} />
        ))}
      <section class="cautions" aria-label={say.care}>
        <h3>{say.care}</h3>
        <ul>
          {say.cautions.map((c) => (
            <li key={c}>{c}</li>
          ))}
        </ul>
      </section>
    </section>
  );
}
