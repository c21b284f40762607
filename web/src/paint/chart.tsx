import type { ComponentChildren } from "preact";
import type { SceneScene } from "../api/types.gen.ts";
import { fit, Shape } from "./scene.tsx";

/** Pixels to the millimetre of a chart's paper. */
const perMM = 4;

interface Drawn {
  scene: SceneScene;
  /** What it shows, for those who do not see it. */
  label: string;
  /** Things that are lit on it. */
  lit: ReadonlySet<string>;
  /** The thing under the pointer; "" for none. */
  onPoint?: (id: string) => void;
  onChoose?: (id: string) => void;
  /** Where the pointer is, in mm from the left edge, while it is down. */
  onSlide?: (mm: number) => void;
  /** Drawn on top, in pixels of the chart. */
  children?: ComponentChildren;
}

export const chartX = (mm: number): number => mm * perMM;

export const chartHeight = (scene: SceneScene): number => (scene.max_m[1] - scene.min_m[1]) * 1000 * perMM;

/** A chart: a scene whose metre is a metre of paper. */
export function Chart({ scene, label, lit, onPoint, onChoose, onSlide, children }: Drawn) {
  const width = (scene.max_m[0] - scene.min_m[0]) * 1000 * perMM;
  const height = chartHeight(scene);
  const frame = fit(scene, width, height, perMM, 0);
  const idOf = (e: Event) => (e.target as Element).closest("[data-id]")?.getAttribute("data-id") ?? "";
  const slide = (e: PointerEvent) => {
    const box = (e.currentTarget as Element).getBoundingClientRect();
    onSlide?.((((e.clientX - box.left) / box.width) * width) / perMM);
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: likewise
    <svg
      class={`chart${onSlide ? " slides" : ""}`}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={label}
      onPointerOver={(e) => onPoint?.(idOf(e))}
      onPointerLeave={() => onPoint?.("")}
      onClick={(e) => idOf(e) && onChoose?.(idOf(e))}
      onPointerDown={(e) => {
        if (!onSlide || e.button !== 0) return;
        e.currentTarget.setPointerCapture(e.pointerId);
        slide(e);
      }}
      onPointerMove={(e) => onSlide && e.currentTarget.hasPointerCapture(e.pointerId) && slide(e)}
    >
      {scene.layers.map((layer) =>
        layer.items.map((item, i) => (
          <g
            key={`${layer.id}-${i}`}
            class={`${layer.id}${item.id && lit.has(item.id) ? " lit" : ""}`}
            data-id={item.id || undefined}
          >
            {item.title && <title>{item.title}</title>}
            <Shape item={item} frame={frame} hit={item.id !== undefined} />
          </g>
        )),
      )}
      {children}
    </svg>
  );
}
