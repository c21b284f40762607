import { useRef } from "preact/hooks";
import type { CatalogueKind, JobOutlet, JobPart, JobRun } from "../../api/types.gen.ts";
import { catalogue, kindRow, stockRow } from "../../state/catalogue.ts";
import { pieces, thingOf } from "../../state/live.ts";
import {
  addPart,
  changePart,
  type Draft,
  hangable,
  movePart,
  takeOffPart,
  withItem,
} from "../../tools/drop/hang.ts";
import { kindOf } from "../../tools/field.ts";
import { FigureField } from "../../tools/figure.tsx";
import { kit } from "../../tools/line/kit.ts";
import { sizesOf } from "../../tools/line/options.tsx";
import { lineWords } from "../../words/lines.ts";
import { KindSign } from "../sign/sign.tsx";
import type { Change } from "./compose.tsx";

const words = lineWords.compose;

type Rows = readonly (readonly [string, string])[];

function Pick({
  label,
  value,
  rows,
  change,
}: {
  label: string;
  value: string;
  rows: Rows;
  change: (v: string) => void;
}) {
  return (
    <select aria-label={label} value={value} onChange={(e) => change(e.currentTarget.value)}>
      {rows.map(([id, text]) => (
        <option key={id} value={id}>
          {text}
        </option>
      ))}
    </select>
  );
}

/** A row of the picture: its sign on the line, its words, what may be done with it. */
function Part({
  kind,
  title,
  children,
}: {
  kind: CatalogueKind | undefined;
  title: string;
  children?: preact.ComponentChildren;
}) {
  return (
    <>
      <KindSign kind={kind} down={kind?.group !== "outlet" || kind.roles.includes("couples")} />
      <div class="hang-words">
        <strong>{title}</strong>
        {children}
      </div>
    </>
  );
}

/** The rows of the catalogue that a kind may be. */
function itemsOf(kind: CatalogueKind | undefined): Rows {
  const c = catalogue.value;
  if (!c || !kind) return [];
  if (kind.roles.includes("couples")) return c.couplers.map((k) => [k.id, k.words]);
  return c.treatment.filter((t) => t.kind === kind.id).map((t) => [t.id, t.words]);
}

/** What a part begins with: the middle row of its kind, and a pressure where it must have one. */
function begun(kind: CatalogueKind, d: Draft): JobPart {
  const rows = itemsOf(kind);
  const coupler = d.hose?.plug;
  const item = kind.roles.includes("couples")
    ? (rows.find(([id]) => id === coupler) ?? rows[0])
    : rows[Math.floor((rows.length - 1) / 2)];
  return {
    kind: kind.id,
    ...(item ? { item: item[0] } : {}),
    ...(kind.needs.includes("set_kPa_g") ? { set_kPa_g: 600 } : {}),
  };
}

function Hanging({ part, i, now, change }: { part: JobPart; i: number; now: Draft; change: Change }) {
  const list = useRef<HTMLLIElement>(null);
  const kind = kindRow(part.kind);
  const title = kind?.words ?? part.kind;
  const rows = itemsOf(kind);
  const put = (d: Draft) => change({ hang: d.hang });
  const keyed = (e: KeyboardEvent) => {
    const inField = e.target instanceof HTMLInputElement;
    if (e.altKey && e.key === "ArrowUp") put(movePart(now, i, -1));
    else if (e.altKey && e.key === "ArrowDown") put(movePart(now, i, 1));
    else if (e.key === "Delete" && !inField) put(takeOffPart(now, i));
    else return;
    e.preventDefault();
  };
  return (
    <li class="hang-part" ref={list} onKeyDown={keyed}>
      <Part kind={kind} title={title}>
        {rows.length > 0 && (
          <Pick
            label={words.row(title)}
            value={part.item ?? ""}
            rows={part.item ? rows : [["", words.anyRow], ...rows]}
            change={(item) => put(changePart(now, i, withItem(part, item)))}
          />
        )}
        {kind?.needs.includes("set_kPa_g") && (
          <FigureField
            label={words.set}
            kind="gauge pressure"
            si={(part.set_kPa_g ?? 0) * 1000}
            change={(pa) => put(changePart(now, i, { ...part, set_kPa_g: pa / 1000 }))}
          />
        )}
      </Part>
      <div class="hang-moves">
        <button
          type="button"
          aria-label={words.higher(title)}
          disabled={i === 0}
          onClick={() => put(movePart(now, i, -1))}
        >
          ↑
        </button>
        <button
          type="button"
          aria-label={words.lower(title)}
          disabled={i === now.hang.length - 1}
          onClick={() => put(movePart(now, i, 1))}
        >
          ↓
        </button>
        <button type="button" aria-label={words.off(title)} onClick={() => put(takeOffPart(now, i))}>
          ×
        </button>
      </div>
    </li>
  );
}

/** The leg from the main: how it is taken off, its size, its valve. Only of a new one. */
function Leg({ now, change }: { now: Draft; change: Change }) {
  const all = catalogue.value?.kinds ?? [];
  const valve = all.find((k) => k.id === "ball-valve");
  const sizes = sizesOf(stockRow(kit.value.stock));
  return (
    <>
      <li class="hang-part">
        <Part kind={kindRow("tee")} title={words.takeOff}>
          <Pick
            label={words.takeOff}
            value={now.takeOff}
            rows={Object.entries(words.takeOffs)}
            change={(takeOff) => change({ takeOff })}
          />
          <Pick
            label={lineWords.size}
            value={now.size}
            rows={[["", lineWords.asLine], ...sizes]}
            change={(size) => change({ size })}
          />
        </Part>
      </li>
      <li class={`hang-part${now.valve ? "" : " without"}`}>
        <Part kind={valve} title={words.valve} />
        <input
          type="checkbox"
          aria-label={words.valve}
          checked={now.valve}
          onChange={(e) => change({ valve: e.currentTarget.checked })}
        />
      </li>
    </>
  );
}

/** Whether a drip line leads from a part to its drain already. */
const hasDrain = (point: string): boolean =>
  [...pieces.value.values()].some((p) => {
    const run = kindOf(p.id) === "line" ? (p.thing as JobRun) : undefined;
    return run && [run.from, run.to].some((e) => e.point === point && e.port === "drain");
  });

/** What the outlet hangs at, and the drain under it. */
function At({ of, now, change }: { of: string; now: Draft; change: Change }) {
  const all = catalogue.value?.kinds ?? [];
  const kind = kindRow(now.kind);
  const drained = kind?.ports.some((p) => p.id === "drain") ?? false;
  const kinds = all.filter((k) => k.roles.includes("outlet")).map((k): [string, string] => [k.id, k.words]);
  const has = of !== "" && hasDrain(thingOf<JobOutlet>(of)?.point ?? of);
  const known = kinds.some(([id]) => id === now.kind);
  const drains = all.filter((k) => k.roles.includes("drains")).map((k): [string, string] => [k.id, k.words]);
  const take = (id: string) => {
    const has = kindRow(id)?.ports.some((p) => p.id === "drain") ?? false;
    change({ kind: id, ...(has ? {} : { drain: "" }) });
  };
  return (
    <>
      <li class="hang-part">
        <Part kind={kind} title={words.at}>
          {of === "" || known ? (
            <Pick
              label={words.at}
              value={now.kind}
              rows={of === "" ? [["", words.simplest], ...kinds] : kinds}
              change={take}
            />
          ) : (
            <span>{kind?.words ?? now.kind}</span>
          )}
        </Part>
      </li>
      {drained && has && (
        <li class="hang-part aside">
          <Part kind={kindRow("drain-cock")} title={words.drained} />
        </li>
      )}
      {drained && !has && (
        <li class={`hang-part aside${now.drain === "" ? " without" : ""}`}>
          <Part kind={kindRow(now.drain || "drain-cock")} title={words.drain}>
            <Pick
              label={words.drain}
              value={now.drain}
              rows={[["", words.noDrain], ...drains]}
              change={(drain) => change({ drain })}
            />
          </Part>
        </li>
      )}
    </>
  );
}

/** The hang from the top down, part by part on the line. */
export function Picture({ of, now, change }: { of: string; now: Draft; change: Change }) {
  const kinds = catalogue.value?.kinds ?? [];
  return (
    <>
      <ol class="hang">
        {of === "" && <Leg now={now} change={change} />}
        <At of={of} now={now} change={change} />
        {now.hang.map((part, i) => (
          <Hanging key={part.id ?? `${part.kind}${i}`} part={part} i={i} now={now} change={change} />
        ))}
      </ol>
      <label class="select">
        <span>{words.add}</span>
        <select
          value=""
          onChange={(e) => {
            const kind = kindRow(e.currentTarget.value);
            e.currentTarget.value = "";
            if (kind) change({ hang: addPart(now, begun(kind, now), kinds).hang });
          }}
        >
          <option value="">{words.choose}</option>
          {hangable(kinds).map((k) => (
            <option key={k.id} value={k.id}>
              {k.words}
            </option>
          ))}
        </select>
      </label>
      <p class="soft keys-here">{words.keys}</p>
    </>
  );
}
