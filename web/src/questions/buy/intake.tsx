import type { ScreenNeedRow } from "../../api/types.gen.ts";
import {
  asks,
  chooseList,
  list,
  listFault,
  listName,
  map,
  putAway,
  reading,
  state,
  takePrices,
} from "../../state/pricelist.ts";
import { intakeWords as words } from "../../words/intake.ts";
import { Rows, Sure } from "./listrows.tsx";

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
