import type { JobPoint, JobRun, ScreenPiece } from "../../api/types.gen.ts";
import { kindOf } from "../field.ts";

// What may be done with what is chosen, without anything of the page.

type Pieces = ReadonlyMap<string, ScreenPiece>;

const runOf = (pieces: Pieces, id: string): JobRun | undefined =>
  kindOf(id) === "line" ? (pieces.get(id)?.thing as JobRun | undefined) : undefined;

const pointOf = (pieces: Pieces, id: string): JobPoint | undefined =>
  kindOf(id) === "point" ? (pieces.get(id)?.thing as JobPoint | undefined) : undefined;

export const runsIn = (pieces: Pieces, ids: readonly string[]): string[] =>
  ids.filter((id) => runOf(pieces, id) !== undefined);

/** The runs that end at each point, and whether an outlet hangs there. */
function meeting(pieces: Pieces): Map<string, string[]> {
  const at = new Map<string, string[]>();
  for (const p of pieces.values()) {
    const run = runOf(pieces, p.id);
    if (run) for (const end of [run.from.point, run.to.point]) at.set(end, [...(at.get(end) ?? []), p.id]);
  }
  return at;
}

function outletPoints(pieces: Pieces): Set<string> {
  const out = new Set<string>();
  for (const p of pieces.values())
    if (kindOf(p.id) === "outlet") out.add((p.thing as { point: string }).point);
  return out;
}

/** The whole stretch that a run is of: on over every place where one line goes on as one other, to the next branch. */
export function stretchOf(pieces: Pieces, run: string): string[] {
  const at = meeting(pieces);
  const stops = outletPoints(pieces);
  const found = new Set<string>([run]);
  const open = [run];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const thing = runOf(pieces, id);
    if (!thing) continue;
    for (const end of [thing.from.point, thing.to.point]) {
      const there = at.get(end) ?? [];
      if (there.length !== 2 || stops.has(end)) continue;
      for (const next of there) {
        if (found.has(next)) continue;
        found.add(next);
        open.push(next);
      }
    }
  }
  return [...found];
}

/** The point at which what is chosen may be joined: chosen itself, or where two chosen runs meet; "" for none. */
export function joinAt(pieces: Pieces, ids: readonly string[]): string {
  const at = meeting(pieces);
  const [a, b] = ids;
  if (ids.length === 1 && a && pointOf(pieces, a)) {
    const plain = ["joint", "coupling", "union", "reducer"].includes(pointOf(pieces, a)?.part.kind ?? "");
    return plain && at.get(a)?.length === 2 ? a : "";
  }
  const [one, two] = [runOf(pieces, a ?? ""), runOf(pieces, b ?? "")];
  if (ids.length !== 2 || !one || !two) return "";
  const ends = [two.from.point, two.to.point];
  return [one.from.point, one.to.point].find((p) => ends.includes(p) && at.get(p)?.length === 2) ?? "";
}

/** What may be said to stand, to be planned or to be for later. */
export const stated = (ids: readonly string[]): string[] =>
  ids.filter((id) => ["line", "point", "outlet"].includes(kindOf(id)));

/** The state that all of them have; "" where they differ. */
export function stateOf(pieces: Pieces, ids: readonly string[]): string {
  const of = new Set(
    stated(ids).map((id) => {
      const thing = pieces.get(id)?.thing as { state?: string; point?: string } | undefined;
      const owner = kindOf(id) === "outlet" ? (pieces.get(thing?.point ?? "")?.thing as typeof thing) : thing;
      return owner?.state || "planned";
    }),
  );
  const [one = ""] = of;
  return of.size === 1 ? one : "";
}

/** The points chosen that a bypass may lead round: parts in a line that need looking after. */
export function bypassable(
  pieces: Pieces,
  ids: readonly string[],
  treats: (kind: string) => boolean,
): string[] {
  const at = meeting(pieces);
  const all = ids.every((id) => treats(pointOf(pieces, id)?.part.kind ?? ""));
  return all ? ids.filter((id) => (at.get(id)?.length ?? 0) >= 2) : [];
}

/** The middle of a run, where it is split when nobody says where. */
export function middleOf(pieces: Pieces, run: string): number {
  const at = pieces.get(run)?.line_m ?? [];
  let long = 0;
  for (let i = 1; i < at.length; i++) {
    const [a, b] = [at[i - 1], at[i]];
    if (a && b) long += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  }
  return Math.round((long / 2) * 1e4) / 1e4;
}
