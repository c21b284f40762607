import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { JobPoint, JobRun } from "../../api/types.gen.ts";
import { panel, selection } from "../../state/ask.ts";
import { wantCatalogue } from "../../state/catalogue.ts";
import { pieces, thingOf } from "../../state/live.ts";
import { step } from "../../state/post.ts";
import { bypassable, joinAt, middleOf, runsIn, stated, stateOf, stretchOf } from "../../tools/act/act.ts";
import { bypassChosen, equip, eraseChosen, joinChosen, lacks, markAs, treats } from "../../tools/act/does.ts";
import { openComposer } from "../../tools/drop/draft.ts";
import { kindOf } from "../../tools/field.ts";
import type { Made } from "../../tools/line/course.ts";
import { openKit, takeStock } from "../../tools/line/kit.ts";
import { StockAndSize, StockCaution } from "../../tools/line/options.tsx";
import { take } from "../../tools/tool.ts";
import { inspectWords } from "../../words/inspect.ts";
import { lineWords } from "../../words/lines.ts";

const words = lineWords.act;

/** Marks of what is chosen: stands already, planned, for later. */
function States({ ids }: { ids: readonly string[] }) {
  const now = stateOf(pieces.value, ids);
  return (
    <fieldset class="segments act-states">
      <legend>{words.state}</legend>
      {Object.entries(lineWords.states).map(([id, text]) => (
        <label key={id}>
          <input type="radio" name="act-state" checked={now === id} onChange={() => markAs(id)} />
          <span>{text}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** Another stock or size, for the runs chosen or for the whole stretch that one of them is of. */
function Stock({ runs }: { runs: readonly string[] }) {
  const first = thingOf<JobRun>(runs[0] ?? "");
  const made = useSignal<Made | null>(null);
  const whole = useSignal(false);
  const key = runs.join(" ");
  useEffect(() => {
    made.value = null;
  }, [key]);
  useEffect(openKit, []);
  if (!first) return null;
  const as: Made = { stock: first.stock, size: first.size, role: first.role, state: "", corners: "" };
  const now = made.value ?? as;
  const stretch = [...new Set(runs.flatMap((id) => stretchOf(pieces.value, id)))];
  const ids = whole.value ? stretch : runs;
  return (
    <details class="act-stock" id="act-stock">
      <summary>{words.stock}</summary>
      <div class="act-fields">
        <StockAndSize
          made={now}
          change={(m) => {
            made.value = m.stock === now.stock ? m : takeStock(m, m.stock);
          }}
        />
        {stretch.length > runs.length && (
          <label class="select">
            <span>{words.reach}</span>
            <select
              value={whole.value ? "whole" : ""}
              onChange={(e) => {
                whole.value = e.currentTarget.value === "whole";
              }}
            >
              <option value="">{words.chosen(runs.length)}</option>
              <option value="whole">{words.whole}</option>
            </select>
          </label>
        )}
        <StockCaution stock={now.stock} />
        <button
          type="button"
          class="do"
          onClick={() => void step({ do: "stock", runs: ids, stock: now.stock, size: now.size })}
        >
          {words.change}
        </button>
      </div>
    </details>
  );
}

/** What may be done with what is chosen, as a row of buttons; the same by keys on the drawing. */
export function Actions() {
  useEffect(wantCatalogue, []);
  const ids = selection.value;
  const all = pieces.value;
  const [one = ""] = ids;
  const runs = runsIn(all, ids);
  const single = ids.length === 1;
  const point = single && kindOf(one) === "point" ? thingOf<JobPoint>(one) : undefined;
  const buttons: [string, string, () => void][] = [];
  if (single && kindOf(one) === "outlet") {
    buttons.push([words.compose, "", () => openComposer(one)]);
    if (panel.value !== "inspect")
      buttons.push([
        inspectWords.properties,
        "",
        () => {
          panel.value = "inspect";
        },
      ]);
  }
  if (single && runs.length === 1) {
    buttons.push([words.reroute, "", () => take("reroute")]);
    buttons.push([words.split, "", () => void step({ do: "split", run: one, along_m: middleOf(all, one) })]);
  }
  if (joinAt(all, ids) !== "") buttons.push([words.join, "", joinChosen]);
  if (bypassable(all, ids, treats).length > 0) buttons.push([words.bypass, words.bypassWhy, bypassChosen]);
  if (point && lacks(one).length > 0) {
    // A relief valve is set to what the receiver bears; where that is not stated it is the usual setting.
    buttons.push([
      words.equip,
      lineWords.plant.relief,
      () => void equip(one, point.part.rating_kPa_g ?? 1000),
    ]);
  }
  if (ids.some((id) => all.has(id))) buttons.push([words.erase, "", eraseChosen]);
  if (buttons.length === 0) return null;
  return (
    <section class="actions" aria-label={words.title}>
      <div class="act-row">
        {buttons.map(([text, why, run]) => (
          <button key={text} type="button" class="act" title={why} onClick={run}>
            {text}
          </button>
        ))}
      </div>
      {stated(ids).length > 0 && <States ids={ids} />}
      {runs.length > 0 && <Stock runs={runs} />}
    </section>
  );
}
