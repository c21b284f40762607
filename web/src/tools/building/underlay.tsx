import { lengthWords } from "../../state/unit.ts";
import { buildingWords } from "../../words/building.ts";
import { spot } from "../hand.ts";
import { Dot, Ghost, Tag } from "../over.tsx";
import { flatOf } from "../place.ts";
import type { Reach, SnapKind } from "../snap.ts";
import { far, type Vec2, type Vec3 } from "../space.ts";
import type { Tool } from "../tool.ts";
import { typesSizes } from "./entry.tsx";
import { inPicture, onFloor } from "./lay.ts";
import { Options } from "./lying.tsx";
import { carriedBy, laid, underlay } from "./picture.tsx";
import { busy, clear, does, length, marks, measuring, move, putDown, set } from "./placing.ts";

const words = buildingWords.picture;

const ground = (p: Vec2): Vec3 => [p[0], p[1], 0];

function Over() {
  const l = laid.value;
  const s = spot.value;
  const [a, b] = marks.value;
  if (!l || !a) return null;
  const from = onFloor(l, a);
  const to = b ? onFloor(l, b) : s ? flatOf(s) : from;
  return (
    <>
      {does.value === "scale" && <Ghost at={[ground(from), ground(to)]} />}
      <Dot at={ground(from)} />
      {b && <Dot at={ground(to)} />}
      {b && <Tag at={ground(to)} words={length.told.value || words.known} />}
    </>
  );
}

const nothing: ReadonlySet<SnapKind> = new Set();
const walls: ReadonlySet<SnapKind> = new Set<SnapKind>(["corner", "wall"]);
/** Marks are set on the picture, where nothing pulls; where it is put down, corners do. */
const reach = (): Reach => ({
  kinds: does.value === "move" && marks.value.length > 0 ? walls : nothing,
  standoff: 0,
});

function hint(): string {
  if (busy.value) return words.reading;
  if (!underlay.value) return words.begin;
  if (does.value === "move") return marks.value.length === 0 ? words.grip : words.drop;
  if (measuring()) return words.type;
  return marks.value.length === 1 ? words.second : words.first;
}

/** The picture of the floor plan under the drawing: brought, scaled by two places of known distance, moved, faded. */
export const picture: Tool = {
  id: "picture",
  words: words.words,
  key: "f",
  part: "building",
  frames: ["plan"],
  flat: true,
  hint,
  reach,
  figures: (s) => {
    const l = laid.value;
    const [a, b] = marks.value;
    if (!l || !a || b || does.value !== "scale") return [];
    return [{ words: "as it lies now", figure: lengthWords(far(onFloor(l, a), flatOf(s))) }];
  },
  move,
  set,
  back() {
    marks.value = marks.value.slice(0, -1);
    carriedBy.value = [0, 0];
    return true;
  },
  leave: clear,
  stop: () => void clear(),
  grab(s) {
    if (does.value !== "move" || marks.value.length > 0 || !laid.value) return false;
    marks.value = [inPicture(laid.value, flatOf(s))];
    return true;
  },
  drag: move,
  drop(s) {
    move(s);
    void putDown();
  },
  other: typesSizes,
  keys: [buildingWords.typeKey],
  Over,
  Options,
};
