import type { SceneItem, SceneMark, SceneScene, SceneStroke } from "../api/types.gen.ts";

/** How a scene stands on the screen: pixels to the metre, pixels to the millimetre of paper, and where the corner is. */
export interface Frame {
  perMetre: number;
  perMM: number;
  left: number; // metres at the left edge
  top: number; // metres at the top edge
}

type Place = [number, number];
type ScenePoint = readonly [number, number];

/** Fits a scene into a window of the given size, with a margin in mm of paper. */
export function fit(scene: SceneScene, width: number, height: number, perMM: number, margin: number): Frame {
  const w = Math.max(scene.max_m[0] - scene.min_m[0], 1e-6);
  const h = Math.max(scene.max_m[1] - scene.min_m[1], 1e-6);
  const room = 2 * margin * perMM;
  const perMetre = Math.max(Math.min((width - room) / w, (height - room) / h), 1e-3);
  return {
    perMetre,
    perMM,
    left: scene.min_m[0] - (width / perMetre - w) / 2,
    top: scene.max_m[1] + (height / perMetre - h) / 2,
  };
}

const place = (f: Frame, p: ScenePoint): Place => [(p[0] - f.left) * f.perMetre, (f.top - p[1]) * f.perMetre];

const round = (v: number) => Math.round(v * 100) / 100;

const outline = (f: Frame, points: ScenePoint[]) =>
  points
    .map((p, i) => {
      const [x, y] = place(f, p);
      return `${i === 0 ? "M" : "L"}${round(x)} ${round(y)}`;
    })
    .join("");

function pen(s: SceneStroke | null | undefined, perMM: number) {
  if (!s) return { class: "pen-none" };
  const dash = s.dash_mm?.length
    ? { "stroke-dasharray": s.dash_mm.map((d) => round(d * perMM)).join(" ") }
    : {};
  const ends = s.round ? ({ "stroke-linecap": "round", "stroke-linejoin": "round" } as const) : {};
  return { class: `pen-${s.color}`, "stroke-width": round(s.width_mm * perMM), ...dash, ...ends };
}

function arcPath(f: Frame, a: NonNullable<SceneItem["arc"]>): string {
  const on = (deg: number): ScenePoint => [
    a.centre_m[0] + a.radius_m * Math.cos((deg * Math.PI) / 180),
    a.centre_m[1] + a.radius_m * Math.sin((deg * Math.PI) / 180),
  ];
  const [x0, y0] = place(f, on(a.from_deg));
  const [x1, y1] = place(f, on(a.to_deg));
  const large = (a.to_deg - a.from_deg + 720) % 360 > 180 ? 1 : 0;
  const r = round(a.radius_m * f.perMetre);
  return `M${round(x0)} ${round(y0)}A${r} ${r} 0 ${large} 0 ${round(x1)} ${round(y1)}`;
}

function Mark({ mark, frame, hit }: { mark: SceneMark; frame: Frame; hit: boolean }) {
  const [x, y] = place(frame, mark.at_m);
  const k = frame.perMM;
  return (
    <g transform={`translate(${round(x)} ${round(y)}) rotate(${-(mark.turn_deg ?? 0)}) scale(${k} ${-k})`}>
      {mark.parts.map((p) => {
        const { class: stroke, ...rest } = pen(p.stroke, 1);
        return <path key={p.d_mm} d={p.d_mm} class={`${stroke} fill-${p.fill || "none"}`} {...rest} />;
      })}
      {hit &&
        mark.parts
          .filter((p) => p.fill)
          .map((p) => <path key={`hit ${p.d_mm}`} d={p.d_mm} class="hit whole" stroke-width={3} />)}
    </g>
  );
}

/** One item of a scene. What can be chosen gets a broad clear line to be hit by. */
export function Shape({ item, frame, hit }: { item: SceneItem; frame: Frame; hit: boolean }) {
  if (item.line) {
    const d = outline(frame, item.line.at_m);
    return (
      <>
        <path class="halo" d={d} stroke-width={round((item.line.stroke.width_mm + 2.2) * frame.perMM)} />
        <path d={d} fill="none" {...pen(item.line.stroke, frame.perMM)} />
        {hit && <path class="hit" d={d} stroke-width={Math.max(4 * frame.perMM, 14)} />}
      </>
    );
  }
  if (item.area) {
    const d = `${outline(frame, item.area.at_m)}Z`;
    const { class: stroke, ...rest } = pen(item.area.stroke, frame.perMM);
    return (
      <>
        <path d={d} class={`${stroke} fill-${item.area.fill || "none"}`} {...rest} />
        {item.area.hatch && <path d={d} class={`hatch-${item.area.hatch}`} />}
      </>
    );
  }
  if (item.arc)
    return <path d={arcPath(frame, item.arc)} fill="none" {...pen(item.arc.stroke, frame.perMM)} />;
  if (item.mark) return <Mark mark={item.mark} frame={frame} hit={hit} />;
  if (item.text) {
    const t = item.text;
    const [x, y] = place(frame, t.at_m);
    const tx = round(x + t.offset_mm[0] * frame.perMM);
    const ty = round(y - t.offset_mm[1] * frame.perMM);
    return (
      <text
        x={tx}
        y={ty}
        class={`text fill-${t.color}${t.bold ? " bold" : ""}`}
        font-size={round(t.size_mm * frame.perMM)}
        text-anchor={(t.anchor as "start" | "middle" | "end" | undefined) || "start"}
        {...(t.turn_deg ? { transform: `rotate(${-t.turn_deg} ${tx} ${ty})` } : {})}
      >
        {/* The blank ends the word for those who hear the texts of one thing in a row; it is not painted. */}
        {`${t.text} `}
      </text>
    );
  }
  return null;
}

/** The hatches that areas are filled with, once on a page. */
export function Hatches() {
  return (
    <svg class="hatches" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern
          id="diagonal"
          width="9"
          height="9"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V9" class="pen-faint" stroke-width="1.6" />
        </pattern>
        <pattern id="cross" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V8M0 0H8" class="pen-faint" stroke-width="1.2" fill="none" />
        </pattern>
      </defs>
    </svg>
  );
}

/** Where an item stands in the window, for walking from one to the next by keys. */
export function centre(item: SceneItem, frame: Frame): Place | null {
  if (item.line) {
    const mid = item.line.at_m[Math.floor(item.line.at_m.length / 2)];
    const before = item.line.at_m[Math.floor(item.line.at_m.length / 2) - 1];
    if (!mid || !before) return null;
    return place(frame, [(mid[0] + before[0]) / 2, (mid[1] + before[1]) / 2]);
  }
  if (item.mark) return place(frame, item.mark.at_m);
  if (item.area) {
    const at = item.area.at_m;
    const sum = (k: 0 | 1) => at.reduce((all, p) => all + p[k], 0);
    return at.length === 0 ? null : place(frame, [sum(0) / at.length, sum(1) / at.length]);
  }
  return null;
}
