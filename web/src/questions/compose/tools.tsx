import type { JobTool } from "../../api/types.gen.ts";
import { catalogue } from "../../state/catalogue.ts";
import { draft, outlets, tools, wanted, withWanted } from "../../tools/drop/draft.ts";
import type { Draft } from "../../tools/drop/hang.ts";
import { Choice } from "../../tools/line/options.tsx";
import { lineWords } from "../../words/lines.ts";
import type { Change } from "./compose.tsx";

const words = lineWords.compose;

/** A name that no tool of the job has, as names begin: a second wrench is told from the first. */
function free(words: string): string {
  const name = words.charAt(0).toUpperCase() + words.slice(1);
  const taken = new Set(tools().map((t) => t.name));
  let n = 1;
  while (taken.has(n === 1 ? name : `${name} ${n}`)) n++;
  return n === 1 ? name : `${name} ${n}`;
}

/** A tool of the catalogue becomes one of the job's and is used here; at the latest when the outlet is kept. */
function NewTool({ now, change }: { now: Draft; change: Change }) {
  const { item, name } = wanted.value;
  const rows = catalogue.value?.tools ?? [];
  const row = rows.find((t) => t.id === item);
  const add = () => void withWanted(now).then(({ tools }) => change({ tools }));
  return (
    <div class="new-tool">
      <Choice
        label={words.newTool}
        value={item}
        rows={[["", words.choose], ...rows.map((t): [string, string] => [t.id, t.words])]}
        change={(id) => {
          wanted.value = { item: id, name: free(rows.find((t) => t.id === id)?.words ?? "") };
        }}
      />
      {row && (
        <>
          <p class="soft">{row.facts}</p>
          <label class="select">
            <span>{words.newToolName}</span>
            <input
              class="short-field"
              value={name}
              onInput={(e) => {
                wanted.value = { item, name: e.currentTarget.value };
              }}
              onBlur={() => {
                if (name.trim() === "") wanted.value = { item, name: free(row.words) };
              }}
            />
          </label>
          <button type="button" class="pick-button" onClick={add}>
            {words.addTool}
          </button>
        </>
      )}
    </div>
  );
}

/** Where else a tool is used: it is one and the same, and runs at one place at a time. */
function Elsewhere({ tool, now, change }: { tool: JobTool; now: Draft; change: Change }) {
  const there = outlets().filter((o) => o.id !== draft.value?.of && o.tools?.includes(tool.id));
  if (!now.tools.includes(tool.id) || there.length === 0 || (tool.count ?? 1) > 1) return null;
  return (
    <p class="soft elsewhere">
      {words.elsewhere(there.map((o) => o.mark || o.name).join(", "))}{" "}
      <button
        type="button"
        class="plain"
        disabled={!tool.item}
        onClick={() => {
          change({ tools: now.tools.filter((id) => id !== tool.id) });
          wanted.value = { item: tool.item ?? "", name: free(tool.name) };
        }}
      >
        {words.second}
      </button>
    </p>
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
        <div key={t.id}>
          <label class="tick">
            <input
              type="checkbox"
              checked={now.tools.includes(t.id)}
              onChange={(e) =>
                change({
                  tools: e.currentTarget.checked
                    ? [...now.tools, t.id]
                    : now.tools.filter((id) => id !== t.id),
                })
              }
            />
            {t.name}
          </label>
          <Elsewhere tool={t} now={now} change={change} />
        </div>
      ))}
      <NewTool now={now} change={change} />
    </fieldset>
  );
}
