import { useSignal } from "@preact/signals";
import { catalogue } from "../../state/catalogue.ts";
import { step } from "../../state/post.ts";
import { tools } from "../../tools/drop/draft.ts";
import type { Draft } from "../../tools/drop/hang.ts";
import { Choice } from "../../tools/line/options.tsx";
import { lineWords } from "../../words/lines.ts";
import type { Change } from "./compose.tsx";

const words = lineWords.compose;

/** A tool of the catalogue becomes one of the job's and is used here. */
function NewTool({ now, change }: { now: Draft; change: Change }) {
  const item = useSignal("");
  const name = useSignal("");
  const c = catalogue.value;
  const rows = c?.tools ?? [];
  const row = rows.find((t) => t.id === item.value);
  const plug = now.hose?.socket ?? now.hang.find((p) => p.kind === "coupler")?.item ?? "";
  const add = () => {
    if (!row) return;
    const thing = { name: name.value.trim() || row.words, item: row.id, ...(plug ? { plug } : {}) };
    void step({ do: "put", what: "tool", thing }).then((o) => {
      const id = o.done ? o.made[0] : undefined;
      if (!id) return;
      change({ tools: [...now.tools, id] });
      item.value = "";
      name.value = "";
    });
  };
  return (
    <details class="new-tool">
      <summary>{words.newTool}</summary>
      <Choice
        label={words.fromCatalogue}
        value={item.value}
        rows={[["", words.choose], ...rows.map((t): [string, string] => [t.id, t.words])]}
        change={(id) => {
          item.value = id;
          name.value = rows.find((t) => t.id === id)?.words ?? "";
        }}
      />
      {row && (
        <>
          <p class="soft">{row.facts}</p>
          <label class="select">
            <span>{words.newToolName}</span>
            <input
              class="short-field"
              value={name.value}
              onInput={(e) => {
                name.value = e.currentTarget.value;
              }}
            />
          </label>
          <button type="button" class="plain" onClick={add}>
            {words.addTool}
          </button>
        </>
      )}
    </details>
  );
}

/** The tools that are used at the outlet. */
export function Tools({ now, change }: { now: Draft; change: Change }) {
  const all = tools();
  return (
    <fieldset class="compose-part">
      <legend>{words.tools}</legend>
      {all.length === 0 && <p class="soft">{words.noTools}</p>}
      {all.map((t) => (
        <label key={t.id} class="tick">
          <input
            type="checkbox"
            checked={now.tools.includes(t.id)}
            onChange={(e) =>
              change({
                tools: e.currentTarget.checked ? [...now.tools, t.id] : now.tools.filter((id) => id !== t.id),
              })
            }
          />
          {t.name}
        </label>
      ))}
      <NewTool now={now} change={change} />
    </fieldset>
  );
}
