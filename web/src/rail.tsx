import { useSignal } from "@preact/signals";
import { type Tool, take, tool, tools } from "./tools/tool.ts";
import { words } from "./words/words.ts";

/** The tools in their parts, in the order in which they are laid out. */
function parts(all: readonly Tool[]): [string, Tool[]][] {
  const out = new Map<string, Tool[]>();
  for (const t of all) out.set(t.part, [...(out.get(t.part) ?? []), t]);
  return [...out];
}

function Row({ row, done }: { row: Tool; done: () => void }) {
  const held = tool.value?.id === row.id;
  return (
    <li>
      <button
        type="button"
        class={held ? "held" : ""}
        aria-pressed={held}
        aria-keyshortcuts={row.key || undefined}
        onClick={() => {
          take(row.id);
          done();
        }}
      >
        <span>{row.words}</span>
        {row.key !== "" && (
          <span class="key" aria-hidden={true}>
            {row.key.toUpperCase()}
          </span>
        )}
      </button>
    </li>
  );
}

/** The tools beside the drawing: words and keys. On a phone one button, which opens the list. */
export function Rail() {
  const open = useSignal(false);
  const close = () => {
    open.value = false;
  };
  return (
    <nav class={`rail${open.value ? " open" : ""}`} aria-label={words.tools}>
      <button
        type="button"
        class="rail-fold"
        aria-expanded={open.value}
        onClick={() => {
          open.value = !open.value;
        }}
      >
        <span class="soft">{words.tools}</span>
        <strong>{tool.value?.words}</strong>
      </button>
      <div class="rail-parts">
        {parts(tools.value).map(([part, rows]) => (
          <section key={part} aria-label={words.parts[part] || words.select.words}>
            {part !== "" && <h2>{words.parts[part]}</h2>}
            <ul>
              {rows.map((t) => (
                <Row key={t.id} row={t} done={close} />
              ))}
            </ul>
          </section>
        ))}
      </div>
    </nav>
  );
}
