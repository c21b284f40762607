import { computed, effect, signal } from "@preact/signals";
import type { JobUnderlay } from "../../api/types.gen.ts";
import { restFrame } from "../../paint/rest.ts";
import { jobPath } from "../../state/address.ts";
import { frames, pieces } from "../../state/live.ts";
import { buildingWords } from "../../words/building.ts";
import { onScene, type Vec2 } from "../space.ts";
import { sizeOf } from "./file.ts";
import { type Laid, matrixOf, shifted } from "./lay.ts";

/** The picture under the drawing; undefined for none. */
export const underlay = computed(() => pieces.value.get("underlay")?.thing as JobUnderlay | undefined);

/** While it is being moved, and while its faintness is being set: not yet in the job. */
export const carriedBy = signal<Vec2>([0, 0]);
export const faintNow = signal<number | null>(null);

const address = computed(() => {
  const file = underlay.value?.file ?? "";
  return file === "" ? "" : jobPath(`/pictures/${encodeURIComponent(file)}`);
});

/** Pixels of the picture shown; null while it is loading or where it cannot be had. */
export const pixels = signal<Vec2 | null>(null);

effect(() => {
  const at = address.value;
  pixels.value = null;
  if (at === "") return;
  let stale = false;
  sizeOf(at).then(
    (size) => {
      if (!stale) pixels.value = size;
    },
    () => {},
  );
  return () => {
    stale = true;
  };
});

/** How the picture lies as it is shown. */
export const laid = computed<Laid | null>(() => {
  const u = underlay.value;
  return u ? shifted(u, carriedBy.value) : null;
});

/** The picture of the floor plan, beneath everything that is drawn. Only on a plan. */
export function FloorPicture() {
  const plan = frames.value.find((f) => f.kind === "plan");
  const size = pixels.value;
  const l = laid.value;
  if (!plan || !size || !l) return null;
  const f = restFrame.value;
  const onWindow = (p: Vec2): Vec2 => {
    const s = onScene(plan, p);
    return [(s[0] - f.left) * f.perMetre, (f.top - s[1]) * f.perMetre];
  };
  return (
    <g class="underlay">
      <image
        aria-label={buildingWords.picture.words}
        href={address.value}
        width={size[0]}
        height={size[1]}
        transform={matrixOf(l, onWindow)}
        preserveAspectRatio="none"
        opacity={1 - (faintNow.value ?? underlay.value?.faint ?? 0)}
      />
    </g>
  );
}
