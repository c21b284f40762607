import type { JobOpening, JobRoom, JobWall, ScreenPiece } from "../../api/types.gen.ts";
import { buildingWords } from "../../words/building.ts";
import { kindOf, wallOf } from "../field.ts";
import { outOf, type Vec2, type Vec3, wallLength } from "../space.ts";
import { areaOf } from "./outline.ts";
import { setting } from "./setting.ts";

const words = buildingWords.sizes;

/** A size of a thing that can be typed over: where it is read off, and the step that gives it another length. */
export interface Size {
  key: string;
  words: string;
  from: Vec3;
  to: Vec3;
  length_m: number;
  /** Pixels that it stands beside the line from one to the other, to the left of the way; 0 is on it. */
  beside: number;
  become: (length_m: number) => object;
}

type Pieces = ReadonlyMap<string, ScreenPiece>;
/** What the size stands on: the plan, or the wall of an elevation. */
export type On = "plan" | "wall";

const off = 17;

/** Where a direction of the plan points, y being north. */
export function compass(d: Vec2): string {
  const turn = Math.atan2(d[1], d[0]) / (2 * Math.PI);
  return words.compass[(Math.round(turn * 8) + 16) % 8] ?? "";
}

function ofRoom(id: string, room: JobRoom): Size[] {
  const corners: Vec2[] = room.outline_m;
  const inside = areaOf(corners) > 0 ? 1 : -1; // counterclockwise: the room lies on the left of the way
  return corners.map((a, side) => {
    const b = corners[(side + 1) % corners.length] as Vec2;
    const d: Vec2 = [b[0] - a[0], b[1] - a[1]];
    // The corner at the lower or left end stays, whichever way round the outline runs.
    const main = Math.abs(d[0]) >= Math.abs(d[1]) ? d[0] : d[1];
    return {
      key: `side ${side}`,
      words: words.side(compass([d[1] * inside, -d[0] * inside])),
      from: [a[0], a[1], room.floor_m],
      to: [b[0], b[1], room.floor_m],
      length_m: Math.hypot(d[0], d[1]),
      beside: off * inside,
      become: (length_m) => ({ do: "stretch", room: id, side, length_m, hold: main < 0 ? "to" : "from" }),
    };
  });
}

function ofWall(id: string, called: string, wall: JobWall, on: On): Size[] {
  const frame = { from: wall.from_m, to: wall.to_m, floor: wall.floor_m ?? 0 };
  const long = wallLength(frame);
  const length: Size = {
    key: "length",
    words: words.length,
    from: outOf(frame, 0, 0, 0),
    to: outOf(frame, long, 0, 0),
    length_m: long,
    // In the plan on the side of the room, which is the right of the way.
    beside: on === "plan" ? -off : off,
    become: (length_m) => ({ do: "stretch", wall: id, length_m }),
  };
  if (on === "plan") return [length];
  const height: Size = {
    key: "height",
    words: words.height,
    from: outOf(frame, 0, 0, 0),
    to: outOf(frame, 0, wall.height_m, 0),
    length_m: wall.height_m,
    beside: -off,
    become: (value) => setting(id, called, "height_m", value),
  };
  return [length, height];
}

const mm = (v: number): number => Math.round(v * 1e6) / 1e6;

/** What the ends of a wall are called: on a plan by where they lie, on the wall itself left and right. */
export function endsOf(frame: { from: Vec2; to: Vec2 }, on: On): readonly [string, string] {
  if (on === "wall") return [words.left, words.right];
  const d: Vec2 = [frame.to[0] - frame.from[0], frame.to[1] - frame.from[1]];
  return [words.corner(compass([-d[0], -d[1]])), words.corner(compass(d))];
}

function ofOpening(id: string, called: string, o: JobOpening, wall: JobWall, on: On): Size[] {
  const frame = { from: wall.from_m, to: wall.to_m, floor: wall.floor_m ?? 0 };
  const [left, right] = endsOf(frame, on);
  const long = wallLength(frame);
  const sill = o.sill_m ?? 0;
  const up = on === "wall" ? sill + o.height_m / 2 : 0;
  const top = on === "wall" ? sill + o.height_m : 0;
  const row = (key: string, label: string, a: number, b: number, become: Size["become"]): Size => ({
    key,
    words: label,
    // On the wall itself the width stands over the opening, where its height does not.
    from: outOf(frame, a, key === "width" ? top : up, 0),
    to: outOf(frame, b, key === "width" ? top : up, 0),
    length_m: mm(b - a),
    beside: on === "plan" ? -off * (key === "width" ? 2.6 : 1) : key === "width" ? off : 0,
    become,
  });
  const far = o.along_m + o.width_m;
  const rows = [
    row("left", left, 0, o.along_m, (v) => setting(id, called, "along_m", mm(v))),
    row("width", words.width, o.along_m, far, (v) => setting(id, called, "width_m", mm(v))),
    row("right", right, far, long, (v) => setting(id, called, "along_m", mm(long - o.width_m - v))),
  ];
  if (on === "plan") return rows;
  const upright = (key: "sill" | "height", a: number, b: number, become: Size["become"]): Size => ({
    key,
    words: words[key],
    from: outOf(frame, o.along_m, a, 0),
    to: outOf(frame, o.along_m, b, 0),
    length_m: mm(b - a),
    beside: -off,
    become,
  });
  rows.push(upright("height", sill, sill + o.height_m, (v) => setting(id, called, "height_m", mm(v))));
  // A door has its sill at the floor; only what stands above it has one to be typed over.
  if (sill > 0 || o.kind === "window")
    rows.push(upright("sill", 0, sill, (v) => setting(id, called, "sill_m", mm(v))));
  return rows;
}

/** The sizes of a room, wall or opening that can be typed over; none for other things. */
export function sizesOf(pieces: Pieces, id: string, on: On): Size[] {
  const piece = pieces.get(id);
  if (!piece) return [];
  const { thing, words: called } = piece;
  switch (kindOf(id)) {
    case "room":
      return on === "plan" ? ofRoom(id, thing as JobRoom) : [];
    case "wall":
      return ofWall(id, called, thing as JobWall, on);
    case "opening": {
      const o = thing as JobOpening;
      const wall = pieces.get(o.wall)?.thing as JobWall | undefined;
      return wall && wallOf(pieces, o.wall) ? ofOpening(id, called, o, wall, on) : [];
    }
  }
  return [];
}

/** The wall whose elevation shows a thing's sizes; "" for none. */
export function wallUnder(pieces: Pieces, id: string): string {
  if (kindOf(id) === "wall") return id;
  return kindOf(id) === "opening" ? ((pieces.get(id)?.thing as JobOpening | undefined)?.wall ?? "") : "";
}
