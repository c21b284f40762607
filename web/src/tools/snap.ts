import { words } from "../words/words.ts";
import { dot, far, minus, plus, times, type Vec2 } from "./space.ts";

export type SnapKind = "point" | "run" | "corner" | "middle" | "wall" | "square" | "level" | "grid";

/** What a tool wants to snap to. */
export interface Reach {
  kinds: ReadonlySet<SnapKind>;
  /** Metres off a wall's face that lines keep. */
  standoff: number;
  /** Things that are passed over: what is being dragged. */
  without?: ReadonlySet<string>;
}

/** Guides are pairs of places on the plane of the frame, drawn so that one sees why. */
export interface Snap {
  kind: SnapKind;
  /** The point, run or wall snapped to; "" for none. */
  id: string;
  /** How far along the run or the wall. */
  along_m: number;
  words: string;
  guides: readonly (readonly [Vec2, Vec2])[];
}

/** What there is to snap to, on the plane of one frame: x and y in a plan, along and up on a wall. */
export interface Field {
  points: readonly { id: string; at: Vec2; depth: number; words: string }[];
  lines: readonly { id: string; at: readonly Vec2[]; depths: readonly number[]; words: string }[];
  /** Faces and edges; off is the side that lines keep on: a unit vector, or nothing where they may lie on it. */
  edges: readonly { id: string; from: Vec2; to: Vec2; off: Vec2 | null; words: string }[];
}

/** How a place is looked for. */
export interface Search {
  reach: Reach;
  /** How near counts, in metres. */
  near: number;
  grid: number;
  /** The working height in a plan, the distance off the face on a wall. */
  depth: number;
  /** Right angles are counted from here. */
  from: Vec2 | null;
  /** What the pointer lies on as drawn, which may be a little beside where it is. */
  over: string;
}

export interface Found {
  at: Vec2;
  depth: number;
  snap: Snap | null;
}

export const everything: ReadonlySet<SnapKind> = new Set<SnapKind>([
  "point",
  "run",
  "corner",
  "middle",
  "wall",
  "square",
  "level",
  "grid",
]);

const snapTo = (kind: SnapKind, what: string, id = "", along_m = 0, guides: Snap["guides"] = []): Snap => ({
  kind,
  id,
  along_m,
  words: what,
  guides,
});

/** The nearest place on a straight piece, as a share of it. */
function share(a: Vec2, b: Vec2, p: Vec2): number {
  const d = minus(b, a);
  const l2 = dot(d, d);
  return l2 === 0 ? 0 : Math.min(1, Math.max(0, dot(minus(p, a), d) / l2));
}

const between = (a: Vec2, b: Vec2, t: number): Vec2 => plus(a, times(minus(b, a), t));

function nearestPoint(field: Field, raw: Vec2, s: Search): Found | null {
  let best: Field["points"][number] | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const p of field.points) {
    if (s.reach.without?.has(p.id)) continue;
    const away = p.id === s.over ? 0 : far(p.at, raw);
    if (away > s.near) continue;
    // Where two lie over each other, the one at the working depth.
    const cost = away + Math.abs(p.depth - s.depth) * 1e-3;
    if (cost < least) {
      best = p;
      least = cost;
    }
  }
  return best && { at: best.at, depth: best.depth, snap: snapTo("point", best.words, best.id) };
}

interface OnLine {
  at: Vec2;
  depth: number;
  along: number;
  away: number;
}

/** The place on a run nearest to raw; an upright piece, a dot on the plane, is met at the working depth. */
function onLine(line: Field["lines"][number], raw: Vec2, depth: number): OnLine | null {
  let best: OnLine | null = null;
  let before = 0;
  for (let i = 1; i < line.at.length; i++) {
    const [a, b] = [line.at[i - 1] as Vec2, line.at[i] as Vec2];
    const [da, db] = [line.depths[i - 1] ?? 0, line.depths[i] ?? 0];
    const flat = far(a, b);
    const length = Math.hypot(flat, db - da);
    const t =
      flat > 0.01 || db === da ? share(a, b, raw) : Math.min(1, Math.max(0, (depth - da) / (db - da)));
    const at = between(a, b, t);
    const found = { at, depth: da + (db - da) * t, along: before + length * t, away: far(at, raw) };
    if (!best || found.away < best.away) best = found;
    before += length;
  }
  return best;
}

function nearestRun(field: Field, raw: Vec2, s: Search): Found | null {
  let best: (OnLine & { id: string; words: string }) | null = null;
  for (const line of field.lines) {
    if (s.reach.without?.has(line.id)) continue;
    const on = onLine(line, squareOn(line, raw, s), s.depth);
    if (!on) continue;
    const away = line.id === s.over ? Math.min(on.away, s.near) / 2 : far(on.at, raw);
    if (away <= s.near && (!best || away < best.away)) best = { ...on, away, id: line.id, words: line.words };
  }
  return best && { at: best.at, depth: best.depth, snap: snapTo("run", best.words, best.id, best.along) };
}

/** On a run, the place square to where the line drawn stands comes before the place right under the pointer. */
function squareOn(line: Field["lines"][number], raw: Vec2, s: Search): Vec2 {
  if (!s.from || !s.reach.kinds.has("square")) return raw;
  for (const i of [0, 1] as const) {
    const wish: Vec2 = i === 0 ? [s.from[0], raw[1]] : [raw[0], s.from[1]];
    const on = onLine(line, wish, s.depth);
    // Its foot on the run must still be square to where the line stands.
    if (on && far(wish, raw) <= s.near && Math.abs(on.at[i] - s.from[i]) < 1e-6) return wish;
  }
  return raw;
}

interface Face {
  id: string;
  from: Vec2;
  to: Vec2;
  words: string;
  at: Vec2;
  away: number;
}

/** The faces within reach, moved off by the standoff, the nearest first. */
function faces(field: Field, raw: Vec2, s: Search): Face[] {
  const out: Face[] = [];
  for (const e of field.edges) {
    if (s.reach.without?.has(e.id)) continue;
    const shift: Vec2 = e.off ? times(e.off, s.reach.standoff) : [0, 0];
    const [from, to] = [plus(e.from, shift), plus(e.to, shift)];
    const at = between(from, to, share(from, to, raw));
    const away = far(at, raw);
    if (away <= s.near) out.push({ id: e.id, from, to, words: e.words, at, away });
  }
  return out.sort((a, b) => a.away - b.away);
}

/** Where two faces meet, both prolonged. */
function crossing(a: Face, b: Face): Vec2 | null {
  const [u, v] = [minus(a.to, a.from), minus(b.to, b.from)];
  const area = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(area) < 0.05 * Math.hypot(...u) * Math.hypot(...v)) return null;
  const d = minus(b.from, a.from);
  return plus(a.from, times(u, (d[0] * v[1] - d[1] * v[0]) / area));
}

function onFaces(field: Field, raw: Vec2, s: Search): Found | null {
  const [first, ...others] = faces(field, raw, s);
  if (!first) return null;
  if (s.reach.kinds.has("corner")) {
    for (const other of others) {
      const at = crossing(first, other);
      if (at && far(at, raw) <= s.near * 1.4)
        return {
          at,
          depth: s.depth,
          snap: snapTo("corner", words.snap.corner, first.id, far(first.from, at)),
        };
    }
  }
  return s.reach.kinds.has("wall") ? alongFace(field, first, raw, s) : null;
}

/** On a face: its middle, square to the last place, level with a point, or the grid counted from its start. */
function alongFace(field: Field, face: Face, raw: Vec2, s: Search): Found {
  const length = far(face.from, face.to);
  const way: Vec2 = length > 0 ? times(minus(face.to, face.from), 1 / length) : [1, 0];
  const along = dot(minus(raw, face.from), way);
  const put = (t: number, kind: SnapKind, what: string, guides: Snap["guides"] = []): Found => {
    const held = Math.min(length, Math.max(0, t));
    const at = plus(face.from, times(way, held));
    return { at, depth: s.depth, snap: snapTo(kind, what, face.id, held, guides) };
  };
  if (s.reach.kinds.has("middle") && Math.abs(along - length / 2) <= s.near)
    return put(length / 2, "middle", `${words.snap.middle} ${face.words}`);
  if (s.from && s.reach.kinds.has("square")) {
    const t = dot(minus(s.from, face.from), way);
    const foot = plus(face.from, times(way, t));
    if (Math.abs(t - along) <= s.near && t >= 0 && t <= length && far(foot, s.from) > 1e-6)
      return put(t, "square", words.snap.square, [[s.from, foot]]);
  }
  if (s.reach.kinds.has("level")) {
    const level = levels(field, s).find((p) => {
      const t = dot(minus(p.at, face.from), way);
      return Math.abs(t - along) <= s.near / 2 && far(p.at, raw) < reachOfLevels;
    });
    if (level) {
      const t = dot(minus(level.at, face.from), way);
      const foot = plus(face.from, times(way, t));
      return put(t, "level", `${words.snap.level} ${level.words}`, [[level.at, foot]]);
    }
  }
  const t = s.reach.kinds.has("grid") ? Math.round(along / s.grid) * s.grid : along;
  return put(t, "wall", face.words);
}

/** Points farther off than this do not pull, m: the eye does not see that they are level. */
const reachOfLevels = 6;

const levels = (field: Field, s: Search) => field.points.filter((p) => !s.reach.without?.has(p.id));

/** Away from everything each direction is looked at by itself: square, level, or the grid. */
function free(field: Field, raw: Vec2, s: Search): Found {
  const at: [number, number] = [raw[0], raw[1]];
  const guides: [Vec2, Vec2][] = [];
  let kind: SnapKind = "grid";
  let what = "";
  for (const i of [0, 1] as const) {
    const from = s.from;
    const pull = from && s.reach.kinds.has("square") && Math.abs(from[i] - raw[i]) <= s.near ? from : null;
    const level =
      pull || !s.reach.kinds.has("level")
        ? null
        : levels(field, s)
            .filter((p) => Math.abs(p.at[i] - raw[i]) <= s.near / 2 && far(p.at, raw) < reachOfLevels)
            .sort((a, b) => far(a.at, raw) - far(b.at, raw))[0];
    if (pull || level) {
      const to = pull ?? (level as { at: Vec2 }).at;
      at[i] = to[i];
      kind = pull ? "square" : kind === "square" ? kind : "level";
      what = pull ? words.snap.square : what || `${words.snap.level} ${level?.words ?? ""}`;
      guides.push([to, to]);
    } else if (s.reach.kinds.has("grid")) at[i] = Math.round(raw[i] / s.grid) * s.grid;
  }
  const drawn = guides.map(([a]) => [a, at] as [Vec2, Vec2]);
  return { at, depth: s.depth, snap: what === "" ? null : snapTo(kind, what, "", 0, drawn) };
}

/** The place that is meant by a raw one. What is there comes before what is drawn through it. */
export function find(field: Field, raw: Vec2, s: Search): Found {
  const { kinds } = s.reach;
  return (
    (kinds.has("point") ? nearestPoint(field, raw, s) : null) ??
    (kinds.has("run") ? nearestRun(field, raw, s) : null) ??
    (kinds.has("wall") || kinds.has("corner") ? onFaces(field, raw, s) : null) ??
    free(field, raw, s)
  );
}
