import { useId } from "preact/hooks";
import type { Days, ScreenMoment } from "../../api/types.gen.ts";
import { Chart, chartHeight, chartX } from "../../paint/chart.tsx";
import { light, lit } from "../../state/ask.ts";
import { clock, hour, moment, showMoment } from "../../state/days.ts";
import { dayWords as words } from "../../words/days.ts";
import { Take } from "./take.tsx";

interface Span {
  from: number;
  to: number;
  plot: readonly [number, number];
}

const xOf = (s: Span, at: number): number =>
  chartX(s.plot[0] + ((at - s.from) / (s.to - s.from)) * (s.plot[1] - s.plot[0]));

/** The time under a place of the chart, mm from its left edge. */
function timeAt(s: Span, mm: number): number {
  const share = (mm - s.plot[0]) / (s.plot[1] - s.plot[0]);
  return s.from + Math.min(1, Math.max(0, share)) * (s.to - s.from);
}

/** The moment on a chart: a line from top to bottom. */
function Hand({ span, at, high }: { span: Span; at: number | null; high: number }) {
  if (at === null || at < span.from || at > span.to) return null;
  const x = xOf(span, at);
  return <path class="day-hand" d={`M${x} 0V${high}`} />;
}

/** How the shop stands at a time. */
function standing(list: readonly ScreenMoment[], at: number): ScreenMoment | undefined {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((list[mid]?.at_s ?? Infinity) <= at) low = mid + 1;
    else high = mid;
  }
  return list[Math.max(0, low - 1)];
}

/** The receiver through a day, the hour about the moment shown with who works, and the slide through it. */
export function Day({ days }: { days: Days }) {
  const id = useId();
  const at = moment.value;
  const all: Span = { from: 0, to: days.time_s, plot: days.plot_mm };
  const near = hour.value.value;
  const span: Span | null = near && { from: near.from_s, to: near.to_s, plot: near.plot_mm };
  const stands =
    near && at !== null && span && at >= span.from && at <= span.to ? standing(near.moments, at) : undefined;
  const told =
    at === null
      ? words.noMoment
      : `${words.momentOf(clock(at))}${stands ? `: ${stands.figure}. ${stands.words}` : ""}`;
  return (
    <section class="day" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{words.day}</h3>
      <p class="soft">{words.dayNote}</p>
      <Chart
        scene={days.day}
        label={`${days.day.title}. ${days.sentence}`}
        lit={lit.value}
        onSlide={(mm) => showMoment(timeAt(all, mm))}
      >
        {span && (
          <rect
            class="day-near"
            x={xOf(all, span.from)}
            width={xOf(all, span.to) - xOf(all, span.from)}
            y={0}
            height={chartHeight(days.day)}
          />
        )}
        <Hand span={all} at={at} high={chartHeight(days.day)} />
      </Chart>
      <label class="day-slide" for={`${id}-slide`}>
        <span class="hidden">{words.moment}</span>
        <input
          id={`${id}-slide`}
          type="range"
          min={0}
          max={days.time_s}
          step={5}
          value={at ?? 0}
          aria-valuetext={told}
          onInput={(e) => showMoment(e.currentTarget.valueAsNumber)}
        />
      </label>
      <p class="day-told" role="status">
        {told}
      </p>
      {at !== null && (
        <p>
          <button type="button" class="plain" onClick={() => showMoment(null)}>
            {words.back}
          </button>
        </p>
      )}
      {near && span && (
        <>
          <h4>{words.hour(clock(span.from), clock(span.to))}</h4>
          <Chart
            scene={near.scene}
            label={words.hour(clock(span.from), clock(span.to))}
            lit={lit.value}
            onPoint={(thing) => light(...(thing ? [thing] : []))}
            onSlide={(mm) => showMoment(timeAt(span, mm))}
          >
            <Hand span={span} at={at} high={chartHeight(near.scene)} />
          </Chart>
        </>
      )}
      <Take chart="day" of={words.day} />
    </section>
  );
}
