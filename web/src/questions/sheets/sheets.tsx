import { signal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { get } from "../../api/client.ts";
import type { Sheets as Answer, SheetLeaf, SheetRow } from "../../api/types.gen.ts";
import { jobPath } from "../../state/address.ts";
import { revision } from "../../state/live.ts";
import { sheetWords as say } from "../../words/sheets.ts";
import { Since } from "../buy/since.tsx";
import { asked, leaf, left, looked, onlyOf, paper, stamp, toggle } from "./choice.ts";

const answer = signal<Answer | null>(null);
const shown = signal<SheetLeaf | null>(null);
const fault = signal("");

const told = (e: unknown) => {
  fault.value = e instanceof Error ? e.message : String(e);
};

const picture = (svg: string) => `data:image/svg+xml,${encodeURIComponent(svg)}`;

function Leaf() {
  const one = shown.value;
  if (!one) return <p class="soft">{fault.value || say.drawing}</p>;
  if (one.missing) return <p class="soft">{say.missing(one.missing)}</p>;
  const step = (by: number) => () => {
    leaf.value = one.leaf + by;
  };
  return (
    <figure class="sheet-leaf">
      <img src={picture(one.svg)} alt={`${one.title}, ${say.leaf(one.leaf, one.leaves)}`} />
      <figcaption>
        <button type="button" aria-label={say.before} disabled={one.leaf <= 1} onClick={step(-1)}>
          ←
        </button>
        <span>{say.leaf(one.leaf, one.leaves)}</span>
        <button type="button" aria-label={say.after} disabled={one.leaf >= one.leaves} onClick={step(1)}>
          →
        </button>
        <a
          class="go"
          target="_blank"
          rel="noreferrer"
          href={jobPath(`/book/${looked.value}.pdf${asked(["show", "yes"])}`)}
        >
          {say.print}
        </a>
      </figcaption>
    </figure>
  );
}

function Field({ of, words }: { of: "by" | "mark" | "revision"; words: string }) {
  const id = useId();
  return (
    <p class="sheet-field">
      <label for={id}>{words}</label>
      <input
        id={id}
        type="text"
        maxLength={of === "mark" ? 6 : 60}
        defaultValue={stamp.value[of]}
        onChange={(e) => {
          stamp.value = { ...stamp.value, [of]: e.currentTarget.value };
        }}
      />
    </p>
  );
}

function Row({ row, all }: { row: SheetRow; all: readonly string[] }) {
  return (
    <li class={looked.value === row.id ? "on" : undefined}>
      <label class="tick">
        <input type="checkbox" checked={!left.value.has(row.id)} onChange={() => toggle(row.id, all)} />
        <span>{row.title}</span>
      </label>
      <button
        type="button"
        class="thing-link"
        aria-label={say.look(row.audience, row.title)}
        aria-pressed={looked.value === row.id}
        onClick={() => {
          leaf.value = 1;
          looked.value = row.id;
        }}
      >
        {say.for} {row.audience}
      </button>
    </li>
  );
}

/** Chooses sheets and paper, shows them as they come out, and hands them over. */
export function Sheets() {
  const id = useId();
  useEffect(() => {
    get<Answer>(jobPath("/sheets")).then((a) => {
      answer.value = a;
    }, told);
  }, []);
  const path = jobPath(`/sheets/${looked.value}${asked(["leaf", String(leaf.value)])}`);
  const now = revision.value;
  useEffect(() => {
    const waits = new AbortController();
    fault.value = "";
    get<SheetLeaf>(path, waits.signal).then(
      (one) => {
        shown.value = one;
      },
      (e: unknown) => {
        if (!waits.signal.aborted) told(e);
      },
    );
    return () => waits.abort();
  }, [path, now]);
  const all = answer.value?.sheets.map((s) => s.id) ?? [];
  const only = onlyOf(all, left.value);
  return (
    <section class="sheets">
      <h2>{say.title}</h2>
      <p class="soft">{say.lead}</p>
      {!answer.value && <p class="soft">{fault.value || say.asking}</p>}
      {answer.value && (
        <>
          <Leaf />
          <p class="sheet-take">
            <a class="go" href={jobPath(`/book/job-book.pdf${asked(["only", only])}`)} download>
              {say.book}
            </a>
            <a class="go" href={jobPath(`/book/${looked.value}.pdf${asked()}`)} download>
              {say.one}
            </a>
            <a class="go" href={jobPath(`/book/job-book.zip${asked(["only", only])}`)} download>
              {say.zip}
            </a>
          </p>
          <p class="soft">{say.zipNote}</p>
          <h3 id={id}>{say.which}</h3>
          <ul class="sheet-list" aria-labelledby={id}>
            {answer.value.sheets.map((row) => (
              <Row key={row.id} row={row} all={all} />
            ))}
          </ul>
          <Since />
          <p class="sheet-field">
            <label for={`${id}-paper`}>{say.paper}</label>
            <select
              id={`${id}-paper`}
              value={paper.value || answer.value.paper}
              onChange={(e) => {
                paper.value = e.currentTarget.value;
              }}
            >
              {answer.value.papers.map((p) => (
                <option key={p.id} value={p.id}>
                  {p.words}
                </option>
              ))}
            </select>
          </p>
          <Field of="by" words={say.by} />
          <Field of="mark" words={say.mark} />
          <Field of="revision" words={say.revision} />
        </>
      )}
    </section>
  );
}
