import { signal } from "@preact/signals";
import { frames } from "../../state/live.ts";
import { look, pane } from "../../state/look.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { buildingWords } from "../../words/building.ts";
import { sceneAt } from "../hand.ts";
import { flatOf } from "../place.ts";
import { far, minus, onPlane, type Spot, type Vec2 } from "../space.ts";
import { backToDrawing, entry, put, settleAll, typeSizes } from "./entry.tsx";
import { type Brought, bring } from "./file.ts";
import { inPicture, type Laid, laidInto, onFloor, scaledBy } from "./lay.ts";
import { carriedBy, faintNow, laid, pixels, underlay } from "./picture.tsx";

// What is done with the floor picture: brought, scaled, moved, faded, taken away.

const words = buildingWords.picture;

export type Does = "scale" | "move";
export const does = signal<Does>("scale");
/** Places of the picture that were clicked, in its pixels: two of known distance, or the one it is moved by. */
export const marks = signal<readonly Vec2[]>([]);
export const length = entry("length");
export const straight = signal(true);
export const busy = signal(false);
/** The file at hand, as long as the page lies open: its other pages can be had. */
export const source = signal<{ file: File; pages: number; name: string } | null>(null);

export function clear(): boolean {
  const had = marks.value.length > 0;
  marks.value = [];
  carriedBy.value = [0, 0];
  return had;
}

const refuse = (text: string): void => {
  trouble.value = { kind: "refused", words: text, lines: [] };
};

const mm = (p: Vec2): Vec2 => [Math.round(p[0] * 1e6) / 1e6, Math.round(p[1] * 1e6) / 1e6];

const hundredth = (p: Vec2): Vec2 => [Math.round(p[0] * 100) / 100, Math.round(p[1] * 100) / 100];

export function lay(file: string, page: number, l: Laid, more: object = {}) {
  const at = l.at_m.map(mm);
  return step({
    do: "underlay",
    file,
    ...(page > 0 ? { page } : {}),
    marks_px: l.marks_px,
    at_m: at,
    ...more,
  });
}

/** What is in sight of the plan, with a margin. */
function inSight(): [Vec2, Vec2] {
  const plan = frames.value.find((f) => f.kind === "plan");
  const { width, height } = pane.value;
  const [a, b] = [
    sceneAt(look.value, [width * 0.06, height * 0.94]),
    sceneAt(look.value, [width * 0.94, height * 0.06]),
  ];
  return plan ? [onPlane(plan, a), onPlane(plan, b)] : [a, b];
}

/** A new picture lies in sight; another page of the same sheet size lies as the one before. */
function placeOf(b: Brought, file: File): Laid {
  const u = underlay.value;
  const had = pixels.value;
  const same = u && had && source.value?.name === file.name && had[0] === b.size[0] && had[1] === b.size[1];
  return same ? u : laidInto(b.size, ...inSight());
}

export async function take(file: File | undefined, page = 1): Promise<void> {
  if (!file || busy.value) return;
  busy.value = true;
  trouble.value = null;
  clear();
  try {
    const b = await bring(file, page);
    const at = placeOf(b, file);
    const o = await lay(b.name, b.page, at);
    if (o.done) source.value = { file, pages: b.pages, name: file.name };
    does.value = "scale";
  } catch (e) {
    refuse(e instanceof Error ? e.message : String(e));
  } finally {
    busy.value = false;
  }
}

export function set(s: Spot): void {
  const l = laid.value;
  const u = underlay.value;
  if (!l || !u) return;
  if (does.value === "move") {
    if (marks.value.length === 0) marks.value = [inPicture(l, flatOf(s))];
    else void putDown();
    return;
  }
  const px = hundredth(inPicture(u, flatOf(s)));
  const [first] = marks.value;
  if (marks.value.length !== 1 || !first) {
    marks.value = [px];
    return;
  }
  if (far(first, px) < 2) {
    refuse(words.apart);
    return;
  }
  marks.value = [first, px];
  put(length, null);
  // The field stands once the drawing has been painted.
  requestAnimationFrame(typeSizes);
}

export function move(s: Spot): void {
  const u = underlay.value;
  const [mark] = marks.value;
  if (u && mark && does.value === "move") carriedBy.value = minus(flatOf(s), onFloor(u, mark));
}

export async function putDown(): Promise<void> {
  const l = laid.value;
  const u = underlay.value;
  if (u && l && marks.value.length === 1) await lay(u.file, u.page ?? 0, l);
  clear();
}

export async function scale(): Promise<void> {
  const u = underlay.value;
  const [a, b] = marks.value;
  if (!u || !a || !b) return;
  const ok = await settleAll(length);
  const long = length.si.value ?? 0;
  if (!ok || long <= 0) {
    refuse(buildingWords.unread);
    return;
  }
  const gesture = straight.value ? { at_m: scaledBy(u, a, b, long, true).at_m.map(mm) } : { length_m: long };
  const o = await step({
    do: "underlay",
    file: u.file,
    ...(u.page ? { page: u.page } : {}),
    marks_px: [a, b],
    ...gesture,
  });
  if (o.done) {
    clear();
    backToDrawing();
  }
}

export const titled = (title: string, key: string, value: unknown) =>
  step({ edit: "all", title, edits: [{ edit: "set", key, value }] });

export async function fade(to: number): Promise<void> {
  if (to !== (underlay.value?.faint ?? 0)) await titled(words.fainted, "building.underlay.faint", to);
  faintNow.value = null;
}

/** Both places are set: their distance is asked for. */
export const measuring = (): boolean => does.value === "scale" && marks.value.length === 2;
