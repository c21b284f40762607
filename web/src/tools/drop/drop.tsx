import { signal } from "@preact/signals";
import { panel } from "../../state/ask.ts";
import { pieces } from "../../state/live.ts";
import { trouble } from "../../state/notice.ts";
import { lengthWords } from "../../state/unit.ts";
import { lineWords } from "../../words/lines.ts";
import { words as common } from "../../words/words.ts";
import { wallOf } from "../field.ts";
import { comeTo, height, spot, spotAt, standoff, wallHere } from "../hand.ts";
import { kit, openKit } from "../line/kit.ts";
import { bench, floorAt, partAt } from "../line/levels.ts";
import { Choice } from "../line/options.tsx";
import { taken } from "../line/taken.ts";
import { Dot, Ghost, Tag } from "../over.tsx";
import { anchorOf } from "../place.ts";
import { far3, type Spot, type Vec3 } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";
import { below, type Corner, cornerBy, type Hung, legWay } from "./below.ts";
import { draft, fresh, hang, hanging, lastHung, outlets, type Pending, pending } from "./draft.ts";
import { alike, type Draft } from "./hang.ts";

const words = lineWords.drop;

/** Each click hangs one like the last; off: it is composed first. */
const like = signal(true);

/** Height of the outlet; the working height of lines comes back when the tool is put down. */
let before = 0;

/** How far outlets stand off the wall's face, m. */
const off = (): number => Math.max(standoff.value, 0.06);

const kinds = new Set(["run", "point"] as const);

const fall = 0.1; // m: a typed place is so near its line

/** Whether a spot is on a line that a leg may be taken off. */
function takes(s: Spot): boolean {
  if (s.snap?.kind === "run") return true;
  return s.snap?.kind === "point" && partAt(pieces.value, s.snap.id) !== "compressor";
}

const pendingAt = (s: Spot): Pending => ({
  from: anchorOf(s),
  at: s.at,
  to: below(pieces.value, s.at, height.value, off()),
});

/** Places are counted from the farther corner of the wall. */
const farther = signal(false);

/** The wall's corner that the place is counted from. */
const corner = (s: Spot): Corner | null =>
  takes(s) ? cornerBy(wallOf(pieces.value, pendingAt(s).to.wall), s.at, farther.value) : null;

/** What a leg is composed from: the last one, whose tools stay where they are. */
function composed(): Draft | null {
  const now = fresh();
  return now && { ...now, tools: [] };
}

function set(to: Spot): void {
  if (hanging.value) return;
  // A typed place on a wall's picture is level with its corner, but the line has its fall.
  const s = takes(to) ? to : spotAt(to.frame, to.at, fall);
  if (!takes(s)) {
    trouble.value = { kind: "refused", words: words.off, lines: [] };
    return;
  }
  trouble.value = null;
  const last = lastHung.value;
  if (like.value && last && draft.value?.of !== "") {
    void hang(pendingAt(s), alike(last, outlets(), words.outlet));
    return;
  }
  pending.value = pendingAt(s);
  const now = draft.value?.of === "" ? draft.value.now : composed();
  if (now) draft.value = { of: "", now };
  panel.value = "compose";
}

function clear(): boolean {
  const had = pending.value !== null;
  pending.value = null;
  if (draft.value?.of === "") {
    draft.value = null;
    if (panel.value === "compose") panel.value = "";
  }
  return had;
}

function other(e: KeyboardEvent, s: Spot | null): boolean {
  if (e.ctrlKey || e.altKey || e.metaKey) return false;
  const onWall = s !== null && wallHere(s.frame) !== undefined;
  if (e.key === "b" || e.key === "B") lower(floorAt(pieces.value, s?.at ?? [0, 0, 0]) + bench);
  else if (e.key === "x" || e.key === "X") {
    farther.value = !farther.value;
    if (s) comeTo({ ...s });
  } else if (onWall && (e.key === "PageUp" || e.key === "PageDown"))
    lower(height.value + (e.key === "PageUp" ? 1 : -1) * (e.shiftKey ? 0.01 : 0.1));
  else return false;
  return true;
}

/** The outlet of the next leg hangs at another height; the one that waits goes along. */
function lower(to: number): void {
  height.value = Math.round(to * 1000) / 1000;
  const p = pending.value;
  if (p) pending.value = { ...p, to: below(pieces.value, p.at, height.value, off()) };
  if (spot.value) comeTo({ ...spot.value });
}

function Leg({ from, to, takeOff, faint }: { from: Vec3; to: Hung; takeOff: string; faint: boolean }) {
  return (
    <>
      <Ghost at={legWay(from, to.at, takeOff)} faint={faint} />
      <Dot at={to.at} />
      <Tag at={to.at} words={`${to.wall === "" ? words.straight : words.outlet} ${lengthWords(to.at[2])}`} />
    </>
  );
}

function Over() {
  const s = spot.value;
  const p = pending.value;
  const takeOff = draft.value?.now.takeOff ?? lastHung.value?.takeOff ?? "top";
  const hover = s && takes(s) ? pendingAt(s) : null;
  return (
    <>
      {p && <Leg from={p.at} to={p.to} takeOff={takeOff} faint={false} />}
      {hover && !p && <Leg from={hover.at} to={hover.to} takeOff={takeOff} faint={true} />}
    </>
  );
}

function figures(s: Spot): Figure[] {
  if (!takes(s)) return [];
  const at = legWay(s.at, pendingAt(s).to.at, "top");
  const long = at.reduce(
    (sum, p, i) => (i === 0 ? 0 : sum + Math.hypot(...p.map((v, k) => v - (at[i - 1]?.[k] ?? 0)))),
    0,
  );
  const c = corner(s);
  return [
    ...(c ? [{ words: words.corner(c.toward), figure: lengthWords(far3(c.at, s.at)) }] : []),
    { words: words.outlet, figure: lengthWords(height.value) },
    { words: common.length, figure: lengthWords(long) },
  ];
}

function Options() {
  return (
    <>
      <Choice
        label={lineWords.state}
        value={kit.value.state}
        rows={Object.entries(lineWords.states)}
        change={(state) => {
          kit.value = { ...kit.value, state };
        }}
      />
      <label class="tick">
        <input
          type="checkbox"
          checked={like.value}
          disabled={lastHung.value === null}
          onClick={(e) => {
            // A click leaves the keys to the tool; the space bar leaves them here.
            if (e.detail > 0) e.currentTarget.blur();
          }}
          onChange={(e) => {
            like.value = e.currentTarget.checked;
          }}
        />
        {words.alike}
      </label>
    </>
  );
}

/** A drop leg with what hangs at its end. The first is composed; the next ones are like it at a click each. */
export const drop: Tool = {
  id: "drop",
  words: words.words,
  key: "d",
  part: "lines",
  hint: () => {
    if (pending.value) return words.composing;
    return like.value && lastHung.value ? words.asLast : words.begin;
  },
  reach: () => ({ kinds, standoff: 0, without: taken.value }),
  from: () => (spot.value && corner(spot.value)?.at) ?? null,
  typedWords: () => words.fromCorner((spot.value && corner(spot.value)?.toward) ?? ""),
  figures,
  start() {
    openKit();
    farther.value = false;
    before = height.value;
    height.value = bench;
  },
  stop() {
    clear();
    height.value = before;
  },
  set,
  back: clear,
  leave: clear,
  other,
  keys: words.keys,
  Over,
  Options,
};
