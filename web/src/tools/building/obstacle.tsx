import { signal } from "@preact/signals";
import { choose } from "../../state/ask.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { buildingWords } from "../../words/building.ts";
import { comeTo, spot } from "../hand.ts";
import { Choice } from "../line/options.tsx";
import { Dot, Ghost } from "../over.tsx";
import { flatOf } from "../place.ts";
import type { Spot, Vec2 } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";
import { EntryField, entry, put, settleAll, typesSizes, WordField } from "./entry.tsx";
import { ToolForm } from "./form.tsx";
import { roomAt } from "./kit.ts";
import { backCorner, boxOf, cornerAndSize, cornersOf, type Rect, roundOf, setCorner } from "./rect.ts";
import { buildingReach, ground } from "./room.tsx";
import { type Stuff, standing, usual } from "./stuff.ts";

const words = buildingWords.obstacle;

const kind = signal<Stuff>("bench");
const name = signal("");
const round = signal(false);
const width = entry("length");
const depth = entry("length");
const foot = entry("length");
const top = entry("length");
const rect = signal<Rect | null>(null);

function takeKind(to: Stuff): void {
  kind.value = to;
  const { size } = usual[to];
  round.value = to === "flue";
  put(width, size?.[0] ?? null);
  put(depth, size?.[1] ?? null);
  put(foot, null);
  put(top, null);
  rect.value = null;
}

/** The typed size; null: it is drawn by two corners. */
function typedSize(): Vec2 | null {
  const w = width.si.value ?? 0;
  const d = round.value ? w : (depth.si.value ?? 0);
  return w > 0 && d > 0 ? [w, d] : null;
}

/** The outline with its middle at a place. */
function about(p: Vec2, size: Vec2): Vec2[] {
  if (round.value) return roundOf(p, size[0]);
  return boxOf([p[0] - size[0] / 2, p[1] - size[1] / 2], [p[0] + size[0] / 2, p[1] + size[1] / 2]);
}

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

async function place(outline: readonly Vec2[], middle: Vec2): Promise<void> {
  const called = name.value.trim();
  const { bottom_m, top_m } = standing(
    kind.value,
    { bottom: foot.si.value, top: top.si.value },
    roomAt(middle),
  );
  const o = await step({
    do: "obstacle",
    kind: kind.value,
    ...(called ? { name: called } : {}),
    outline_m: outline.map((p) => p.map(mm)),
    bottom_m,
    top_m,
  });
  if (!o.done) return;
  rect.value = null;
  name.value = "";
  if (o.made[0]) choose(o.made[0]);
}

/** Two corners: of a rectangle, or of the square that a round thing fills. */
function drawn(a: Vec2, c: Vec2): Vec2[] {
  const { corner, size } = cornerAndSize(a, c);
  if (!round.value) return boxOf(a, c);
  const w = Math.min(...size);
  return roundOf([corner[0] + w / 2, corner[1] + w / 2], w);
}

async function set(s: Spot): Promise<void> {
  if (!(await settleAll(width, depth, foot, top))) {
    trouble.value = { kind: "refused", words: buildingWords.unread, lines: [] };
    return;
  }
  const p = flatOf(s);
  const size = rect.value ? null : typedSize();
  if (size) return place(about(p, size), p);
  const { rect: now, whole } = setCorner(rect.value, p);
  rect.value = now ?? rect.value;
  if (whole) {
    const [a, c] = whole;
    await place(drawn(a, c), [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2]);
  }
}

function Over() {
  const s = spot.value;
  const r = rect.value;
  const size = typedSize();
  if (!s) return r && <Dot at={ground(r.a)} />;
  const p = flatOf(s);
  if (!r) return size && <Ghost at={about(p, size).map(ground)} closed faint />;
  const c = cornersOf(r, p);
  return (
    <>
      <Ghost at={drawn(c[0] as Vec2, c[2] as Vec2).map(ground)} closed />
      <Dot at={ground(r.a)} />
    </>
  );
}

function figures(s: Spot): Figure[] {
  const r = rect.value;
  if (!r) return [];
  const c = cornersOf(r, flatOf(s));
  const { size } = cornerAndSize(c[0] as Vec2, c[2] as Vec2);
  return [
    { words: buildingWords.room.across, figure: lengthWords(size[0]) },
    { words: buildingWords.room.deep, figure: lengthWords(size[1]) },
  ];
}

function Options() {
  const u = usual[kind.value];
  const ceiling = u.top === null ? buildingWords.ceilingHigh : lengthWords(u.top);
  const hangs = u.hangs ? `${lengthWords(u.hangs)} under it` : lengthWords(0);
  return (
    <ToolForm>
      <Choice
        label={buildingWords.kind}
        value={kind.value}
        rows={Object.entries(words.kinds)}
        change={(v) => takeKind(v as Stuff)}
      />
      <EntryField
        label={round.value ? buildingWords.across : buildingWords.width}
        of={width}
        hint={buildingWords.freely}
      />
      {!round.value && <EntryField label={buildingWords.depth} of={depth} hint={buildingWords.freely} />}
      <label class="tick">
        <input
          type="checkbox"
          checked={round.value}
          onChange={(e) => {
            round.value = e.currentTarget.checked;
          }}
        />
        {words.round}
      </label>
      <EntryField label={buildingWords.foot} of={foot} hint={hangs} />
      <EntryField label={buildingWords.top} of={top} hint={ceiling} />
      <WordField label={buildingWords.name} of={name} />
      {kind.value === "electrical" && <p class="tool-caution">{words.electrical}</p>}
    </ToolForm>
  );
}

function clear(): boolean {
  const had = rect.value !== null;
  rect.value = null;
  return had;
}

/** What lines and hoses go round: by two corners, by typed sizes about its middle, or round. */
export const obstacle: Tool = {
  id: "obstacle",
  words: words.words,
  key: "b",
  part: "building",
  frames: ["plan"],
  flat: true,
  hint: () => {
    if (rect.value) return rect.value.b ? words.depth : words.second;
    return typedSize() ? words.middle : words.begin;
  },
  reach: buildingReach,
  from: () => (rect.value ? ground(rect.value.b ?? rect.value.a) : null),
  figures,
  set: (s) => void set(s),
  back() {
    rect.value = backCorner(rect.value);
    return true;
  },
  leave: clear,
  stop: () => void clear(),
  grab(s) {
    if (rect.value || typedSize()) return false;
    rect.value = { a: flatOf(s), b: null };
    return true;
  },
  drag: (s) => comeTo(s),
  drop: (s) => void set(s),
  other: typesSizes,
  keys: [buildingWords.typeKey],
  Over,
  Options,
};
