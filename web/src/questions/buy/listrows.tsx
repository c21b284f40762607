import { useSignal } from "@preact/signals";
import type { ScreenListRow, ScreenNeedRow } from "../../api/types.gen.ts";
import { leave, pair } from "../../state/pricelist.ts";
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
export function Rows({
  title,
  rows,
  needs,
}: {
  title: string;
  rows: ScreenListRow[];
  needs: ScreenNeedRow[];
}) {
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
export function Sure({ rows }: { rows: ScreenListRow[] }) {
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
