import type { DrawBand } from "../api/types.gen.ts";
import { pixelsPerMM } from "../state/paper.ts";

/** A short piece of line as it is drawn in a band of the legend. */
export function Sample({ band }: { band: DrawBand }) {
  const width = 1.6 * pixelsPerMM;
  return (
    <svg class="sample" width="44" height="10" viewBox="0 0 44 10" aria-hidden="true">
      <path d="M3 5H41" class={`pen-${band.color}`} stroke-width={width} stroke-linecap="round" />
      {band.hollow_mm?.length ? (
        <path
          d="M3 5H41"
          class="pen-floor"
          stroke-width={width * 0.42}
          stroke-dasharray={band.hollow_mm.map((d) => d * pixelsPerMM).join(" ")}
        />
      ) : null}
    </svg>
  );
}
