import type { DrawFrame } from "../api/types.gen.ts";
import { pane } from "../state/look.ts";
import { lengthWords } from "../state/unit.ts";
import { words } from "../words/words.ts";
import { height, onWindow, spot, standoff, wallHere } from "./hand.ts";
import { far3, lift, type Spot, type Vec3 } from "./space.ts";
import { type Figure, marking, tool } from "./tool.ts";

// What tools paint over the drawing, given in metres of the shop, painted in pixels of the window.

/** A line that is not there yet; without a frame in the one that the hand is in. */
export function Ghost({
  at,
  closed,
  faint,
  frame,
}: {
  at: readonly Vec3[];
  closed?: boolean;
  faint?: boolean;
  frame?: DrawFrame | undefined;
}) {
  const d = at.map((p, i) => `${i === 0 ? "M" : "L"}${onWindow(p, frame).join(" ")}`).join("");
  return <path class={`ghost${faint ? " faint" : ""}`} d={closed ? `${d}Z` : d} />;
}

/** A place set. */
export function Dot({ at, frame }: { at: Vec3; frame?: DrawFrame | undefined }) {
  const [x, y] = onWindow(at, frame);
  return <circle class="ghost-dot" cx={x} cy={y} r="4" />;
}

/** Words at a place, on a plate of their own. */
export function Tag({ at, words: text }: { at: Vec3; words: string }) {
  const [x, y] = onWindow(at);
  return (
    <text class="ghost-tag" x={x + 10} y={y - 8}>
      {text}
    </text>
  );
}

const marks: Record<string, string> = {
  point: "M-7 0A7 7 0 1 0 7 0A7 7 0 1 0 -7 0M-2 0A2 2 0 1 0 2 0A2 2 0 1 0 -2 0",
  run: "M-8 0H8M0 -8V0",
  corner: "M-7 7V-7H7",
  middle: "M-8 5L0 -7L8 5Z",
  wall: "M-8 0H8M-5 4H5",
  square: "M-7 -7V7H7M-7 1H-1V7",
  level: "M-8 0H-3M3 0H8M0 -8V-3M0 3V8",
};

/** Where the hand is: a cross, the mark of what it snapped to, and the guides that say why. */
export function Cross() {
  const s = spot.value;
  if (!s || !marking()) return null;
  const [x, y] = onWindow(s.at, s.frame);
  const wall = wallHere(s.frame);
  const end = (p: readonly [number, number]) => onWindow(lift(wall, p, 0), s.frame);
  return (
    <g class="cross">
      {s.snap?.guides.map(([a, b], i) => (
        <path key={i} class="guide" d={`M${end(a).join(" ")}L${end(b).join(" ")}`} />
      ))}
      <g transform={`translate(${x} ${y})`}>
        <path class="cross-halo" d={marks[s.snap?.kind ?? ""] ?? "M-9 0H9M0 -9V9"} />
        <path class="cross-line" d={marks[s.snap?.kind ?? ""] ?? "M-9 0H9M0 -9V9"} />
      </g>
    </g>
  );
}

/** The usual figures: how far from the last place, and at what height. */
function usual(s: Spot): Figure[] {
  const from = tool.value?.from?.() ?? null;
  const out: Figure[] = [];
  if (from) out.push({ words: words.length, figure: lengthWords(far3(from, s.at)) });
  return out;
}

function heightOf(s: Spot): Figure[] {
  const wall = wallHere(s.frame);
  const up: Figure = { words: words.height, figure: lengthWords(s.at[2]) };
  if (wall) return [up, { words: words.offWall, figure: lengthWords(standoff.value) }];
  if (tool.value?.flat) return [];
  return s.at[2] === height.value || s.snap?.id ? [up] : [];
}

/** What is known at the pointer, in a small plate beside it. */
export function ReadOut() {
  const s = spot.value;
  if (!s || !marking()) return null;
  const [x, y] = onWindow(s.at, s.frame);
  const figures = [...(tool.value?.figures?.(s) ?? usual(s)), ...heightOf(s)];
  if (figures.length === 0 && (s.snap?.words ?? "") === "") return null; // nothing to tell
  // Beside the pointer, on the side where there is room.
  const { width, height: high } = pane.value;
  const left = x > width - 220 ? `calc(${x - 18}px - 100%)` : `${x + 18}px`;
  const top = y > high - 110 ? `calc(${y - 18}px - 100%)` : `${y + 18}px`;
  return (
    <div class="read-out" style={{ transform: `translate(${left}, ${top})` }} aria-hidden="true">
      {s.snap && s.snap.words !== "" && <p class="snap-words">{s.snap.words}</p>}
      <dl>
        {figures.map((f) => (
          <div key={f.words}>
            <dt>{f.words}</dt>
            <dd>{f.figure}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

/** The same in a sentence, for those who hear it. */
export function sayWhere(s: Spot): string {
  const figures = [...(tool.value?.figures?.(s) ?? usual(s)), ...heightOf(s)];
  return [s.snap?.words ?? "", ...figures.map((f) => `${f.words} ${f.figure}`)]
    .filter((t) => t !== "")
    .join(", ");
}
