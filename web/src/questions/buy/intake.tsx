import { useSignal } from "@preact/signals";
import type { ScreenListRow, ScreenNeedRow } from "../../api/types.gen.ts";
import {
  asks,
  chooseList,
  leave,
  list,
  listFault,
  listName,
  map,
  pair,
  putAway,
  reading,
  state,
  takePrices,
} from "../../state/pricelist.ts";
import { intakeWords as words } from "../../words/intake.ts";

const shownRows = 60;

/** Mends a row; it then stands elsewhere, and the hand goes on where it was. */
async function mend(at: HTMLElement, change: Promise<void>): Promise<void> {
  const rows = () => [...document.querySelectorAll<HTMLElement>(".take-in .list-rows > li")];
  const place = rows().indexOf(at.closest<HTMLElement>("li") ?? at);
  await change;
  requestAnimationFrame(() => {
    const left = rows();
    left[Math.min(place, left.length - 1)]?.querySelector<HTMLElement>("select, button, input")?.focus();
  });
}

/** What each column is, with the first cells of it. */
function Columns() {
  const now = list.value;
  if (!now) return null;
  return (
    <fieldset class="list-columns">
      <legend>{words.columns}</legend>
      <ul>
        {now.columns.map((c) => (
          <li key={c.name} class={c.field === "nothing" ? "passed" : undefined}>
            <label>
              <span class="column-name">{c.name}</span>
              <span class="column-head">{c.head || "–"}</span>
              <select value={c.field} onChange={(e) => map(c.name, e.currentTarget.value)}>
                {now.fields.map((f) => (
                  <option key={f.field} value={f.field}>
                    {f.words}
                  </option>
                ))}
              </select>
            </label>
            <span class="soft samples">{c.samples.join(" · ")}</span>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

type Stated = "supplier" | "currency" | "date";

function Field({ of, label }: { of: Stated; label: string }) {
  return (
    <label>
      <span>{label}</span>
      <input
        autocomplete="off"
        value={asks.value[of] ?? ""}
        onChange={(e) => void state({ [of]: e.currentTarget.value })}
      />
    </label>
  );
}

/** What is said of the list as a whole. */
function Whole() {
  const now = list.value;
  if (!now) return null;
  return (
    <div class="list-whole">
      {now.sheets.length > 1 && (
        <label>
          <span>{words.sheet}</span>
          <select
            value={now.sheet}
            onChange={(e) => void state({ sheet: e.currentTarget.value, columns: [], pairs: [], leave: [] })}
          >
            {now.sheets.map((s) => (
              <option key={s}>{s}</option>
            ))}
          </select>
        </label>
      )}
      <Field of="supplier" label={words.supplier} />
      <Field of="currency" label={words.currency} />
      <Field of="date" label={words.date} />
      <label>
        <span>{words.decimal}</span>
        <select
          value={asks.value.decimal ?? ""}
          onChange={(e) => void state({ decimal: e.currentTarget.value })}
        >
          {words.decimals.map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

/** The articles that an unsure row may be: the nearest first, then all that the job has to have. */
function Which({ row, needs }: { row: ScreenListRow; needs: ScreenNeedRow[] }) {
  const near = new Set(row.nearest.map((p) => p.article));
  return (
    <label class="which">
      <span class="hidden">{`${words.which} ${row.row}`}</span>
      <select
        value=""
        onChange={(e) => {
          const { value } = e.currentTarget;
          if (value !== "") void mend(e.currentTarget, pair(row.row, value));
        }}
      >
        <option value="">{words.unsure}</option>
        {row.nearest.map((p) => (
          <option key={p.article} value={p.article}>
            {p.words === p.article ? p.article : `${p.words} (${p.article})`}
          </option>
        ))}
        <optgroup label={words.nobody}>
          {needs
            .filter((n) => !near.has(n.article))
            .map((n) => (
              <option key={n.article} value={n.article}>
                {`${n.words} (${n.article})`}
              </option>
            ))}
        </optgroup>
      </select>
    </label>
  );
}

/** A row that is not taken, with the reason and what would mend it. */
function Open({ row, needs }: { row: ScreenListRow; needs: ScreenNeedRow[] }) {
  return (
    <li>
      <p class="cells">
        <span class="row-number">
          {words.row} {row.row}
        </span>{" "}
        {row.cells}
      </p>
      {row.problems.map((p) => (
        <p key={p} class="list-problem">
          {p}.
        </p>
      ))}
      {row.open && row.nearest.length === 0 && <p class="soft">{words.unlike}</p>}
      <div class="row-buttons">
        {row.open && <Which row={row} needs={needs} />}
        {row.state !== "left" && row.state !== "head" && (
          <button
            type="button"
            class="plain"
            aria-label={`${words.leave}: ${words.row} ${row.row}`}
            onClick={(e) => void mend(e.currentTarget, leave(row.row, true))}
          >
            {words.leave}
          </button>
        )}
        {row.state === "left" && (
          <button
            type="button"
            class="plain"
            aria-label={`${words.keep}: ${words.row} ${row.row}`}
            onClick={(e) => void mend(e.currentTarget, leave(row.row, false))}
          >
            {words.keep}
          </button>
        )}
      </div>
    </li>
  );
}

/** Rows of a kind, the first of many. */
function Rows({ title, rows, needs }: { title: string; rows: ScreenListRow[]; needs: ScreenNeedRow[] }) {
  const all = useSignal(false);
  if (rows.length === 0) return null;
  const shown = all.value ? rows : rows.slice(0, shownRows);
  return (
    <>
      <h4>
        {title} <span class="soft">{rows.length}</span>
      </h4>
      <ul class="list-rows">
        {shown.map((r) => (
          <Open key={r.row} row={r} needs={needs} />
        ))}
      </ul>
      {shown.length < rows.length && (
        <button
          type="button"
          class="plain"
          onClick={() => {
            all.value = true;
          }}
        >
          {words.all} {rows.length}
        </button>
      )}
    </>
  );
}

/** The rows that are sure; each can be left out. */
function Sure({ rows }: { rows: ScreenListRow[] }) {
  const all = useSignal(false);
  if (rows.length === 0) return null;
  const shown = all.value ? rows : rows.slice(0, shownRows);
  return (
    <>
      <h4>
        {words.sure} <span class="soft">{rows.length}</span>
      </h4>
      <ul class="list-rows sure">
        {shown.map((r) => (
          <li key={r.row}>
            <label class="tick">
              <input
                type="checkbox"
                checked
                disabled={r.state === "same"}
                onChange={(e) => void mend(e.currentTarget, leave(r.row, true))}
              />
              <span>
                <span class="row-number">
                  {words.row} {r.row}
                </span>{" "}
                {r.article}
              </span>
            </label>
            <span class="sum">
              {r.taken?.holds}, {r.taken?.price}
              {r.taken?.was && (
                <span class="soft"> {r.state === "same" ? words.same : `${words.was} ${r.taken.was}`}</span>
              )}
            </span>
            <span class="soft cells">
              {r.taken?.from}; {r.cells}
            </span>
          </li>
        ))}
      </ul>
      {shown.length < rows.length && (
        <button
          type="button"
          class="plain"
          onClick={() => {
            all.value = true;
          }}
        >
          {words.all} {rows.length}
        </button>
      )}
    </>
  );
}

/** A supplier's list, looked at row by row before anything of it is taken. */
export function TakeIn({ needs }: { needs: ScreenNeedRow[] }) {
  const now = list.value;
  const of = (...states: string[]) => now?.rows.filter((r) => states.includes(r.state)) ?? [];
  return (
    <details class="add-offer take-in">
      <summary>{words.title}</summary>
      <label class="list-file">
        <span>{words.file}</span>
        <input
          type="file"
          accept=".csv,.txt,.tsv,.xlsx,text/csv"
          onChange={(e) => {
            const file = e.currentTarget.files?.[0];
            if (file) void chooseList(file);
          }}
        />
      </label>
      <p role="status" class="soft">
        {reading.value ? words.reading : (now?.sentence ?? "")}
      </p>
      {listFault.value !== "" && (
        <p role="alert" class="list-problem">
          {listFault.value}
        </p>
      )}
      {now && (
        <section aria-label={listName.value} aria-busy={reading.value}>
          <p class="soft">
            {listName.value}: {now.form}
          </p>
          {now.problems.map((p) => (
            <p key={p} class="list-problem">
              {p}.
            </p>
          ))}
          {now.notes.map((n) => (
            <p key={n}>{n}</p>
          ))}
          <Whole />
          <Columns />
          <Rows title={words.unsure} rows={of("unsure")} needs={needs} />
          <Rows title={words.faults} rows={of("fault")} needs={needs} />
          <Sure rows={of("take", "same")} />
          <Rows title={words.passed} rows={of("left", "head")} needs={needs} />
          <div class="row-buttons list-take">
            <button
              type="button"
              class="do"
              disabled={now.sure === 0 || reading.value}
              onClick={() => void takePrices()}
            >
              {now.sure === 0 ? words.none : words.take(now.sure)}
            </button>
            <button type="button" class="plain" onClick={putAway}>
              {words.again}
            </button>
          </div>
        </section>
      )}
    </details>
  );
}
