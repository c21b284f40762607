import { signal } from "@preact/signals";
import type { JobRoom, JobWall, ScreenPiece } from "../../api/types.gen.ts";
import { units } from "../../state/ask.ts";
import { pieces } from "../../state/live.ts";
import { jobUnits } from "../../state/unit.ts";
import { kindOf } from "../field.ts";
import type { Vec2 } from "../space.ts";
import { entry, put } from "./entry.tsx";
import { within } from "./standing.ts";

// What the next walls and rooms are made like; it stays from one to the next.

export const wallHeight = entry("length");
export const thickness = entry("length");
export const madeOf = signal("");

/** Round figures of the person's own units to begin with; what has been typed once stays. */
export function beginKit(): void {
  if (wallHeight.si.value === null && wallHeight.text.value === null) put(wallHeight, rounded(3, 10 * foot));
  if (thickness.si.value === null && thickness.text.value === null) put(thickness, usualThickness());
}

export const foot = 0.3048;

/** As thick as the walls that stand, so that new ones line up with them. */
const usualThickness = (): number =>
  all<JobWall>("wall").at(-1)?.thing.thickness_m ?? rounded(0.15, foot / 2);

/** A usual size: the round one of the metre or of the foot. */
export const rounded = (metric: number, us: number): number =>
  (units.value || jobUnits.value) === "us" ? us : metric;

type Pieces = ReadonlyMap<string, ScreenPiece>;

/** Everything of one kind, in the order of the job. */
export function all<T>(kind: string, of: Pieces = pieces.value): (ScreenPiece & { thing: T })[] {
  return [...of.values()].filter((p) => kindOf(p.id) === kind) as (ScreenPiece & { thing: T })[];
}

/** The room that a place of the plan lies in. */
export const roomAt = (p: Vec2): JobRoom | undefined =>
  all<JobRoom>("room").find((r) => within(r.thing.outline_m, p))?.thing;
