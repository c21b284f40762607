import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import { outlineOf, placeCount, sentences, sidesOf } from "./answers.ts";
import { draft, offer } from "./draft.ts";
import { type Box, placed, wide } from "./labels.ts";
import { evenly, type Flat, nearest, type OnWall, placeOn, type Side } from "./outline.ts";

const margin = 54; // px for figures and the names of the walls

/** How metres lie on the sheet. */
interface Sheet {
  perMetre: number;
  at: (p: Flat) => [number, number];
  back: (x: number, y: number) => Flat;
}

function sheetOf(outline: readonly Flat[], width: number, height: number): Sheet {
  const w = Math.max(...outline.map((p) => p[0]));
  const d = Math.max(...outline.map((p) => p[1]));
  const perMetre = Math.max(Math.min((width - 2 * margin) / w, (height - 2 * margin) / d), 0.1);
  const left = (width - w * perMetre) / 2;
  const top = (height - d * perMetre) / 2;
  return {
    perMetre,
    at: ([x, y]) => [left + x * perMetre, top + (d - y) * perMetre],
    back: (x, y) => [(x - left) / perMetre, d - (y - top) / perMetre],
  };
}

const path = (points: readonly (readonly [number, number])[], closed = false): string =>
  `${points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`).join("")}${closed ? "Z" : ""}`;

function Doors({ sheet, sides }: { sheet: Sheet; sides: readonly Side[] }) {
  return (
    <>
      {draft.value.doors.map((door) => {
        const side = sides.find((s) => s.wall === door.wall);
        if (!side) return null;
        const wide = offer.value?.doors.find((k) => k.word === door.kind)?.width_m ?? 0.9;
        const from = door.along ?? Math.max((side.long - wide) / 2, 0);
        const to = Math.min(from + wide, side.long);
        const [a, b] = [sheet.at(placeOn(side, from)), sheet.at(placeOn(side, to))];
        const open = sheet.at(placeOn(side, from, wide));
        const r = wide * sheet.perMetre;
        return (
          <g key={door.key}>
            <path class="five-gap" d={path([a, b])} />
            {door.kind === "door" ? (
              <path
                class="five-door"
                d={`${path([a, open])}A${r.toFixed(1)} ${r.toFixed(1)} 0 0 1 ${b[0].toFixed(1)} ${b[1].toFixed(1)}`}
              />
            ) : (
              <path class="five-door five-gate" d={path([a, b])} />
            )}
          </g>
        );
      })}
    </>
  );
}

/** The compressor: a circle with the triangle that gives air off. */
function Machine({ x, y }: { x: number; y: number }) {
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <circle class="five-machine" r={11} />
      <path class="five-machine-mark" d="M-5 4L0 -6L5 4Z" />
    </g>
  );
}

/** Where the name of a place may stand: before its wall, or farther in. */
function namesOf(
  p: OnWall & { name: string },
  on: (p: OnWall, off: number) => [number, number] | null,
): Box[] {
  const w = wide(p.name, 13.5);
  const across = p.wall.startsWith("east") ? -w : p.wall.startsWith("west") ? 0 : -w / 2;
  return [16, 32, 48].flatMap((off) => {
    const at = on(p, across === -w / 2 ? off : 16);
    const down = across === -w / 2 ? 0 : off - 16;
    return at ? [{ x: at[0] + across, y: at[1] - 8 + down, w, h: 15 }] : [];
  });
}

/** What stands on the walls: compressor and places. */
function Standing({ sheet, sides }: { sheet: Sheet; sides: readonly Side[] }) {
  const d = draft.value;
  const on = (p: OnWall, off: number): [number, number] | null => {
    const side = sides.find((s) => s.wall === p.wall);
    return side && p.along <= side.long ? sheet.at(placeOn(side, p.along, off / sheet.perMetre)) : null;
  };
  const stand = d.stand && on(d.stand, 18);
  const names = placed(
    d.places.map((p) => namesOf(p, on)),
    stand ? [{ x: stand[0] - 12, y: stand[1] - 12, w: 24, h: 24 }] : [],
  );
  return (
    <>
      {!d.pick &&
        evenly(sides, placeCount(d, offer.value?.most_places)).map((p) => {
          const [x, y] = sheet.at(p);
          return <circle key={`${x} ${y}`} class="five-spread" cx={x} cy={y} r={4.5} />;
        })}
      {d.pick &&
        d.places.map((p, i) => {
          const at = on(p, 0);
          const name = names[i];
          if (!at) return null;
          return (
            <g key={p.key}>
              <circle class="five-place" cx={at[0]} cy={at[1]} r={6} />
              {name && (
                <text class="five-name" x={name.x + name.w / 2} y={name.y + 12} text-anchor="middle">
                  {p.name}
                </text>
              )}
            </g>
          );
        })}
      {stand && <Machine x={stand[0]} y={stand[1]} />}
    </>
  );
}

/** Names of the walls outside, lengths beside them; the longer walls first where two would lie on each other. */
function Figures({ sheet, sides }: { sheet: Sheet; sides: readonly Side[] }) {
  const d = draft.value;
  const shown = [...sides].sort((a, b) => b.long - a.long).filter((s) => s.long * sheet.perMetre >= 40);
  const upright = (s: Side) => s.wall.startsWith("east") || s.wall.startsWith("west");
  const middle = (s: Side) => sheet.at(placeOn(s, s.long / 2, -21 / sheet.perMetre));
  const said = (s: Side) => {
    const length = lengthIn(d.units, s.long);
    return s.long * sheet.perMetre < 92 ? length : `${s.wall} ${length}`;
  };
  const free = placed(
    shown.map((s) => {
      const [x, y] = middle(s);
      const [w, h] = upright(s) ? [14, wide(said(s), 13)] : [wide(said(s), 13), 14];
      return [{ x: x - w / 2, y: y - h / 2, w, h }];
    }),
  );
  return (
    <>
      {shown.map((s, i) => {
        const [x, y] = middle(s);
        const turn = upright(s) ? ` rotate(${s.wall.startsWith("west") ? -90 : 90})` : "";
        if (!free[i]) return null;
        return (
          <text
            key={s.wall}
            class="five-figure"
            transform={`translate(${x} ${y})${turn}`}
            dy="4"
            text-anchor="middle"
          >
            {said(s)}
          </text>
        );
      })}
    </>
  );
}

/** The room as answered so far. With set, a click on a wall gives its place. */
export function Plan({
  set,
  hint,
  bare,
}: {
  set?: ((at: OnWall) => void) | undefined;
  hint?: string | undefined;
  bare?: boolean;
}) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSignal({ w: 0, h: 0 });
  const over = useSignal<OnWall | null>(null);
  useEffect(() => {
    const seen = box.current;
    if (!seen) return;
    const watch = new ResizeObserver(([e]) => {
      if (e) size.value = { w: e.contentRect.width, h: e.contentRect.height };
    });
    watch.observe(seen);
    return () => watch.disconnect();
  }, []);
  const d = draft.value;
  const { w, h } = size.value;
  const last = useRef(outlineOf(d) ?? []);
  // While a length is being typed it may make no room: the last one stays in sight.
  const now = outlineOf(d);
  if (now) last.current = now;
  const outline = last.current;
  const sides = sidesOf(d);
  const sheet = sheetOf(outline.length ? outline : [[1, 1]], w, h);
  const found = (e: PointerEvent & { currentTarget: SVGSVGElement }): OnWall | null => {
    const r = e.currentTarget.getBoundingClientRect();
    const hit = nearest(sides, sheet.back(e.clientX - r.left, e.clientY - r.top));
    return hit && hit.off * sheet.perMetre < 46 ? { wall: hit.wall, along: hit.along } : null;
  };
  const mark = over.value && sides.find((s) => s.wall === over.value?.wall);
  return (
    <figure class="five-plan">
      <div class="five-sheet" ref={box}>
        {w > 0 && (
          <svg
            class={set ? "five-drawing settable" : "five-drawing"}
            viewBox={`0 0 ${w} ${h}`}
            role="img"
            aria-label={`${say.planAsAnswered}: ${sentences(d, offer.value).join(". ")}`}
            onPointerMove={(e) => {
              if (set) over.value = found(e);
            }}
            onPointerLeave={() => {
              over.value = null;
            }}
            onPointerUp={(e) => {
              const at = set && found(e);
              if (at) set(at);
            }}
          >
            <path class="five-floor" d={path(outline.map(sheet.at), true)} />
            {!bare && <Doors sheet={sheet} sides={sides} />}
            <Figures sheet={sheet} sides={sides} />
            {!bare && <Standing sheet={sheet} sides={sides} />}
            {set && mark && over.value && (
              <g class="five-over">
                <path
                  d={path([
                    sheet.at(placeOn(mark, over.value.along)),
                    sheet.at(placeOn(mark, over.value.along, 22 / sheet.perMetre)),
                  ])}
                />
                <circle
                  cx={sheet.at(placeOn(mark, over.value.along))[0]}
                  cy={sheet.at(placeOn(mark, over.value.along))[1]}
                  r={7}
                />
              </g>
            )}
          </svg>
        )}
      </div>
      <figcaption class="soft">
        {set && mark && over.value
          ? say.standAt(over.value.wall, lengthIn(d.units, over.value.along))
          : (hint ?? sentences(d, offer.value)[0])}
      </figcaption>
    </figure>
  );
}
