import type { CatalogueStock, JobRun, ScreenPiece } from "../../api/types.gen.ts";
import { lineWords } from "../../words/lines.ts";
import { kindOf } from "../field.ts";
import type { Vec3 } from "../space.ts";
import { type Course, type Made, places, type Stand, turns } from "./course.ts";
import { partAt } from "./levels.ts";

type Pieces = ReadonlyMap<string, ScreenPiece>;
type Row = (stock: string) => CatalogueStock | undefined;

/** A fitting that will appear, and where. */
export interface ToCome {
  at: Vec3;
  words: string;
}

const words = lineWords.line;

/** Parts of a line at which another line goes on or tees in. */
const plain = new Set([
  "joint",
  "coupling",
  "union",
  "tee",
  "elbow-90",
  "elbow-45",
  "bend",
  "cap",
  "plug",
  "reducer",
]);

const runsAt = (pieces: Pieces, point: string): JobRun[] =>
  [...pieces.values()]
    .filter((p) => kindOf(p.id) === "line")
    .map((p) => p.thing as JobRun)
    .filter((r) => r.from.point === point || r.to.point === point);

/** Where the line meets a run: a tee, with what its branch is where that is another size. */
function meets(run: JobRun | undefined, made: Made): string {
  const other = run && (run.stock !== made.stock || run.size !== made.size);
  return other ? `${words.tee}, ${words.branch(made.size)}` : words.tee;
}

function atEnd(pieces: Pieces, s: Stand, made: Made): string {
  if (!s.held) return "";
  if ("run" in s.held) return meets(pieces.get(s.held.run)?.thing as JobRun | undefined, made);
  const { point } = s.held;
  if (!plain.has(partAt(pieces, point))) return words.joins;
  const there = runsAt(pieces, point);
  if (there.length > 1) return meets(there[0], made);
  const [one] = there;
  if (!one) return words.joins;
  return one.size === made.size || one.stock !== made.stock ? words.goesOn : words.reducer;
}

/** How far from a quarter or an eighth of a turn a fitting still makes it, degrees. */
const give = 7;

function corner(angle: number, sweeps: boolean): string {
  if (sweeps) return words.bend;
  if (Math.abs(angle - 90) <= give) return words.elbow;
  return Math.abs(angle - 45) <= give ? words.elbow45 : words.odd;
}

/** What the line will be joined and turned by. whole says that its last place is its end. */
export function toCome(pieces: Pieces, c: Course, made: Made, row: Row, whole: boolean): ToCome[] {
  const at = places(c);
  const sweeps = made.corners === "sweep" || (made.corners === "" && row(made.stock)?.corners === "sweep");
  const out: ToCome[] = [{ at: c.from.at, words: atEnd(pieces, c.from, made) }];
  for (const t of turns(at)) out.push({ at: t.at, words: corner(t.turn, sweeps) });
  const end = c.via[c.via.length - 1];
  if (end) {
    const free = made.role === "stub" || made.state === "stub" ? words.cap : whole ? words.open : "";
    out.push({ at: end.at, words: end.held ? atEnd(pieces, end, made) : free });
  }
  return out.filter((t) => t.words !== "");
}
