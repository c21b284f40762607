import type { DrawFrame, JobObstacle, JobOpening, JobWall, ScreenPiece } from "../api/types.gen.ts";
import { words } from "../words/words.ts";
import type { Field } from "./snap.ts";
import { into, times, type Vec2, type Vec3, type WallFrame, wallLength } from "./space.ts";

type Pieces = ReadonlyMap<string, ScreenPiece>;

/** What kind of thing an id names: the word before the point. */
export const kindOf = (id: string): string => /^[^.]*/.exec(id)?.[0] ?? "";

/** A wall of the job as a frame of its own. */
export function wallOf(pieces: Pieces, id: string): WallFrame | undefined {
  if (kindOf(id) !== "wall") return undefined;
  const w = pieces.get(id)?.thing as JobWall | undefined;
  return w && { from: w.from_m, to: w.to_m, floor: w.floor_m ?? 0 };
}

/** Off a wall more than this, a thing is not of its elevation, m. */
const reachOfWall = 0.65;

/** A place of the shop on a wall's plane, or null where it does not belong to the wall. */
function onto(wall: WallFrame, at: Vec3): { at: Vec2; depth: number } | null {
  const [along, up, off] = into(wall, at);
  const beside = along < -reachOfWall || along > wallLength(wall) + reachOfWall;
  return beside || Math.abs(off) > reachOfWall ? null : { at: [along, up], depth: off };
}

const flat = (at: Vec3) => ({ at: [at[0], at[1]] as Vec2, depth: at[2] });

/** The side of a wall's face that lines keep on: the room lies on the right of the wall's way. */
function normal(from: Vec2, to: Vec2): Vec2 {
  const l = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return l > 0 ? times([to[1] - from[1], from[0] - to[0]], 1 / l) : [0, 0];
}

type Row<T> = T extends readonly (infer U)[] ? U : never;
type Points = Row<Field["points"]>[];
type Lines = Row<Field["lines"]>[];
type Edges = Row<Field["edges"]>[];

function netOf(pieces: Pieces, lay: (at: Vec3) => { at: Vec2; depth: number } | null) {
  const points: Points = [];
  const lines: Lines = [];
  for (const p of pieces.values()) {
    if (kindOf(p.id) === "point" && p.at_m) {
      const on = lay(p.at_m);
      if (on) points.push({ id: p.id, words: p.words, ...on });
    }
    if (p.line_m && p.line_m.length > 1) {
      const laid = p.line_m.map(lay);
      if (laid.every((l) => l !== null))
        lines.push({ id: p.id, words: p.words, at: laid.map((l) => l.at), depths: laid.map((l) => l.depth) });
    }
  }
  return { points, lines };
}

function planEdges(pieces: Pieces): Edges {
  const edges: Edges = [];
  const along = (id: string, what: string, corners: readonly Vec2[], off: boolean) => {
    corners.forEach((from, i) => {
      const to = corners[(i + 1) % corners.length] as Vec2;
      edges.push({ id, from, to, off: off ? normal(from, to) : null, words: what });
    });
  };
  for (const p of pieces.values()) {
    const thing = p.thing as Partial<JobWall & JobObstacle>;
    if (kindOf(p.id) === "wall" && thing.from_m && thing.to_m)
      edges.push({
        id: p.id,
        from: thing.from_m,
        to: thing.to_m,
        off: normal(thing.from_m, thing.to_m),
        words: p.words,
      });
    else if (kindOf(p.id) === "obstacle" && thing.outline_m) along(p.id, p.words, thing.outline_m, false);
  }
  return edges;
}

function wallEdges(pieces: Pieces, id: string): Edges {
  const thing = pieces.get(id)?.thing as JobWall | undefined;
  const wall = wallOf(pieces, id);
  if (!thing || !wall) return [];
  const box = (of: string, what: readonly string[], x: number, y: number, w: number, h: number) => {
    const corners: Vec2[] = [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ];
    return corners.map((from, i) => ({
      id: of,
      from,
      to: corners[(i + 1) % 4] as Vec2,
      off: null,
      words: what[i % what.length] ?? "",
    }));
  };
  const { floor, wallEnd, ceiling } = words.snap;
  const edges: Edges = box(id, [floor, wallEnd, ceiling, wallEnd], 0, 0, wallLength(wall), thing.height_m);
  for (const p of pieces.values()) {
    const o = p.thing as JobOpening;
    if (kindOf(p.id) === "opening" && o.wall === id)
      edges.push(...box(p.id, [p.words], o.along_m, o.sill_m ?? 0, o.width_m, o.height_m));
  }
  return edges;
}

/** Everything there is to snap to in one frame of the drawing. */
export function fieldOf(pieces: Pieces, frame: DrawFrame): Field {
  const wall = frame.kind === "wall" ? wallOf(pieces, frame.wall ?? "") : undefined;
  if (!wall) return { ...netOf(pieces, flat), edges: planEdges(pieces) };
  return {
    ...netOf(pieces, (at) => onto(wall, at)),
    edges: wallEdges(pieces, frame.wall ?? ""),
  };
}
