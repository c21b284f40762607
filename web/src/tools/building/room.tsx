import { signal } from "@preact/signals";
import type { JobZone } from "../../api/types.gen.ts";
import { look } from "../../state/look.ts";
import { lengthWords } from "../../state/unit.ts";
import { buildingWords } from "../../words/building.ts";
import { words as common } from "../../words/words.ts";
import { comeTo, height, spot } from "../hand.ts";
import { Choice } from "../line/options.tsx";
import { Dot, Ghost, Tag } from "../over.tsx";
import { flatOf } from "../place.ts";
import type { Reach, SnapKind } from "../snap.ts";
import { far, type Spot, type Vec2, type Vec3 } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";
import { areaWords } from "./area.ts";
import { EntryField, typeSizes, typesSizes, WordField } from "./entry.tsx";
import { ToolForm } from "./form.tsx";
import { all, beginKit, madeOf, thickness, wallHeight } from "./kit.ts";
import { aligned, closes, withCorner } from "./outline.ts";
import { backCorner, boxOf, cornerAndSize, cornersOf, type Rect, setCorner } from "./rect.ts";
import * as next from "./rooms.ts";

const words = buildingWords.room;

const rect = signal<Rect | null>(null);
const outline = signal<readonly Vec2[]>([]);

const kinds: ReadonlySet<SnapKind> = new Set<SnapKind>(["corner", "wall", "square", "level", "grid"]);
/** To the faces of walls and to corners; net points have no say in a building. */
export const buildingReach = (): Reach => ({ kinds, standoff: 0 });

/** At the working height, as the hand is: typed lengths are then those on the floor. */
export const ground = (p: Vec2): Vec3 => [p[0], p[1], height.value];

const nearPixels = 11;
const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

/** The spot as it counts: the outline's first corner pulls. */
function meant(s: Spot): Vec2 {
  const p = flatOf(s);
  return next.by.value === "outline" ? aligned(outline.value, p, nearPixels / look.value.perMetre) : p;
}

function clear(): boolean {
  const had = rect.value !== null || outline.value.length > 0;
  rect.value = null;
  outline.value = [];
  return had;
}

async function draw(shape: Vec2[], by: "corners" | "outline"): Promise<void> {
  const { corner, size } = cornerAndSize(shape[0] as Vec2, shape[2] as Vec2);
  // What was drawn stays in sight until the room stands, and when it does not.
  const done =
    by === "corners"
      ? await next.drawRoom({ corner_m: corner.map(mm), size_m: size.map(mm) })
      : await next.drawOutline(shape);
  if (done) clear();
}

function set(s: Spot): void {
  const p = meant(s);
  if (next.by.value === "corners") {
    const { rect: now, whole } = setCorner(rect.value, p);
    if (whole) void draw(boxOf(...whole), "corners");
    else rect.value = now;
    return;
  }
  const now = withCorner(outline.value, p);
  outline.value = now.corners;
  if (now.closed) close();
}

function close(): void {
  if (closes(outline.value)) void draw([...outline.value], "outline");
}

function from(): Vec3 | null {
  const r = rect.value;
  const last = r ? (r.b ?? r.a) : outline.value[outline.value.length - 1];
  return last ? ground(last) : null;
}

/** The corners with the pointer where it is. */
function shape(s: Spot | null): Vec2[] {
  if (rect.value) return cornersOf(rect.value, s ? meant(s) : (rect.value.b ?? rect.value.a));
  return s ? [...outline.value, meant(s)] : [...outline.value];
}

function figures(s: Spot): Figure[] {
  const p = meant(s);
  if (rect.value) {
    const c = cornersOf(rect.value, p);
    const { size } = cornerAndSize(c[0] as Vec2, c[2] as Vec2);
    return [
      { words: words.across, figure: lengthWords(size[0]) },
      { words: words.deep, figure: lengthWords(size[1]) },
      { words: words.area, figure: areaWords(size[0] * size[1]) },
    ];
  }
  const last = outline.value[outline.value.length - 1];
  return last ? [{ words: common.length, figure: lengthWords(far(last, p)) }] : [];
}

function Over() {
  const s = spot.value;
  const at = shape(s);
  if (!rect.value && outline.value.length === 0) return null;
  const set: readonly Vec2[] = rect.value ? [rect.value.a] : outline.value;
  return (
    <>
      <Ghost at={at.map(ground)} closed={rect.value !== null || at.length > 2} />
      {set.map((p) => (
        <Dot key={p.join()} at={ground(p)} />
      ))}
      {at[0] && <Tag at={ground(at[0])} words={next.name.value.trim() || next.usualName.value} />}
    </>
  );
}

const rows = (of: Record<string, string>): [string, string][] => Object.entries(of);

function Climate() {
  const zones = all<JobZone>("zone").map((z): [string, string] => [z.id, z.words]);
  const made = rows(buildingWords.climates).map(([id, text]): [string, string] => [
    id,
    words.newClimate(text),
  ]);
  const now = next.nextClimate.value;
  const fresh = now in buildingWords.climates;
  return (
    <>
      <Choice
        label={words.climate}
        value={now || "none"}
        rows={[["none", words.noClimate], ...zones, ...made]}
        change={(v) => {
          next.climate.value = v;
        }}
      />
      {fresh && <EntryField label={words.winter} of={next.winter} hint={buildingWords.anyUnit} />}
      {fresh && <EntryField label={words.summer} of={next.summer} hint={buildingWords.anyUnit} />}
    </>
  );
}

/** What the walls and the ceiling are: it stays from room to room. */
function More() {
  return (
    <details class="tool-more">
      <summary>{buildingWords.more}</summary>
      <div class="tool-more-fields">
        <Choice
          label={words.walls}
          value={next.walled.value}
          rows={rows(words.wallsMade)}
          change={(v) => {
            next.walled.value = v === "no" ? "no" : "yes";
          }}
        />
        {next.walled.value === "yes" && <WallMake />}
        <Choice
          label={words.above}
          value={next.above.value}
          rows={rows(buildingWords.aboves)}
          change={(v) => {
            next.above.value = v as typeof next.above.value;
          }}
        />
        {next.above.value === "tiled" && <EntryField label={words.void} of={next.voidHigh} />}
        <Climate />
        <EntryField label={words.floor} of={next.floor} />
      </div>
    </details>
  );
}

/** How thick walls are and what they are made of. */
export function WallMake() {
  return (
    <>
      <EntryField label={buildingWords.thickness} of={thickness} />
      <Choice
        label={buildingWords.madeOf}
        value={madeOf.value}
        rows={rows(buildingWords.materials)}
        change={(v) => {
          madeOf.value = v;
        }}
      />
    </>
  );
}

function Options() {
  const beside = next.last.value;
  const typed = async () => {
    if (!(await next.drawTyped())) return;
    clear();
    typeSizes();
  };
  return (
    <ToolForm done={() => void typed()}>
      <WordField label={buildingWords.name} of={next.name} hint={next.usualName.value} />
      <EntryField label={buildingWords.width} of={next.width} hint={buildingWords.anyUnit} />
      <EntryField label={buildingWords.depth} of={next.depth} hint={buildingWords.anyUnit} />
      <EntryField label={buildingWords.height} of={wallHeight} />
      <Choice
        label={words.beside}
        value={beside ? next.way.value : ""}
        rows={
          beside ? rows(words.ways).map(([id, text]) => [id, `${text} ${beside.words}`]) : [["", words.first]]
        }
        change={(v) => {
          next.way.value = v as typeof next.way.value;
        }}
      />
      <button type="submit" class="do">
        {buildingWords.draw}
      </button>
      <Choice
        label={words.by}
        value={next.by.value}
        rows={rows(words.bys)}
        change={(v) => {
          clear();
          next.by.value = v === "outline" ? "outline" : "corners";
        }}
      />
      <More />
    </ToolForm>
  );
}

let pressed: Spot | null = null;

/** A room with its walls: two corners, its outline, or its sizes typed. */
export const room: Tool = {
  id: "room",
  words: words.words,
  key: "r",
  part: "building",
  frames: ["plan"],
  flat: true,
  hint: () => {
    if (next.by.value === "outline") return words.outline;
    if (!rect.value) return words.begin;
    return rect.value.b ? words.second : words.opposite;
  },
  reach: buildingReach,
  start: beginKit,
  from,
  figures,
  move(s) {
    const p = meant(s);
    if (far(p, flatOf(s)) > 1e-9) spot.value = { ...s, at: [p[0], p[1], s.at[2]] };
  },
  set,
  finish: close,
  back() {
    if (rect.value) rect.value = backCorner(rect.value);
    else outline.value = outline.value.slice(0, -1);
    return true;
  },
  leave: clear,
  stop: () => void clear(),
  grab(s) {
    if (next.by.value !== "corners" || rect.value) return false;
    pressed = s;
    rect.value = { a: flatOf(s), b: null };
    return true;
  },
  drag: (s) => comeTo(s),
  drop(s) {
    const begun = pressed;
    pressed = null;
    if (begun && rect.value) set(s);
  },
  other: typesSizes,
  keys: [buildingWords.typeKey],
  Over,
  Options,
};
