import { useSignal } from "@preact/signals";
import type { ScreenFieldGroup, Thing } from "../../api/types.gen.ts";
import { step } from "../../state/post.ts";
import { inspectWords as words } from "../../words/inspect.ts";
import { words as common } from "../../words/words.ts";
import { FieldRow } from "./field.tsx";
import { asOne, parted, understand, type Wrong, wrongOf } from "./stating.ts";

/** Figures that are one, and not there yet: they are filled in all and stated at once. */
function Together({ group, revision }: { group: ScreenFieldGroup; revision: number }) {
  const typed = useSignal<ReadonlyMap<string, string>>(new Map());
  const wrong = useSignal<Wrong | null>(null);
  const filled = group.fields.every((f) => !f.needed || (typed.value.get(f.key) ?? "") !== "");
  const state = async () => {
    const steps: unknown[] = [];
    for (const f of group.fields) {
      const text = typed.value.get(f.key) ?? "";
      if (text === "") continue;
      const u = await understand(f, text);
      if (u.wrong) {
        wrong.value = u.wrong;
        return;
      }
      steps.push(u.typed.step);
    }
    const outcome = await step(asOne(group.together ?? group.words, steps));
    wrong.value = outcome.done ? null : wrongOf(outcome.why, outcome.problems);
  };
  return (
    <details class="field-together">
      <summary>{group.words}</summary>
      <p class="soft">{words.lacking}</p>
      {group.fields.map((f) => (
        <FieldRow
          key={`${f.id} ${f.key}`}
          field={f}
          revision={revision}
          hold={(text) => {
            typed.value = new Map(typed.value).set(f.key, text);
          }}
        />
      ))}
      {wrong.value && (
        <p class="wrong-field" role="alert">
          {wrong.value.words}
        </p>
      )}
      <button type="button" class="do" disabled={!filled} onClick={() => void state()}>
        {words.take}
      </button>
    </details>
  );
}

function Group({ group, revision }: { group: ScreenFieldGroup; revision: number }) {
  const { wanted, seldom } = parted(group.fields);
  const row = (f: ScreenFieldGroup["fields"][number]) => (
    <FieldRow key={`${f.id} ${f.key}`} field={f} revision={revision} />
  );
  const away = group.away;
  return (
    <section class="field-group">
      <h3>{group.words}</h3>
      {wanted.map(row)}
      {seldom.length > 0 && (
        <details class="field-more">
          <summary>{words.more(seldom.length)}</summary>
          {seldom.map(row)}
        </details>
      )}
      {away && (
        <button type="button" class="plain" onClick={() => void step(away)}>
          {words.away}
        </button>
      )}
    </section>
  );
}

/** What of a thing can be stated, with what can hurt before it. */
export function Properties({ thing }: { thing: Thing }) {
  if (thing.groups.length === 0) return null;
  return (
    <section class="properties" aria-label={words.properties}>
      {thing.cautions.length > 0 && (
        <section class="cautions" aria-label={common.cautions}>
          <ul>
            {thing.cautions.map((c) => (
              <li key={c}>{c}</li>
            ))}
          </ul>
        </section>
      )}
      {thing.groups.map((g, i) =>
        g.together ? (
          <Together key={`${thing.id} ${i}`} group={g} revision={thing.revision} />
        ) : (
          <Group key={`${thing.id} ${i}`} group={g} revision={thing.revision} />
        ),
      )}
      <p class="soft field-hint">{words.typeHint}</p>
    </section>
  );
}
