import { moveBy, zoomBy } from "../state/look.ts";
import { comeTo, locate } from "./hand.ts";
import type { Spot, Vec2 } from "./space.ts";
import { tool } from "./tool.ts";
import { typing } from "./typing.ts";

// Wheel, pointer and pinch on the drawing, turned into what the tool in the hand understands.

interface Press {
  at: Vec2;
  over: string;
  spot: Spot | null;
  /** What the movement does; "" until it has gone far enough to be one. */
  does: "" | "drag" | "pan";
}

const firm = 5; // px that a press must move to be a drag

/** The thing that an event is about; "" for none. */
export const idOf = (e: Event): string =>
  (e.target as Element | null)?.closest?.("[data-id]")?.getAttribute("data-id") ?? "";

const fingers = new Map<number, Vec2>();
let press: Press | null = null;
let panned = false;
let spaceHeld = false;

function local(element: Element, e: { clientX: number; clientY: number }): Vec2 {
  const r = element.getBoundingClientRect();
  return [e.clientX - r.left, e.clientY - r.top];
}

const pointed = (e: PointerEvent, px: Vec2, over: string) => ({
  px,
  over,
  shift: e.shiftKey,
  free: e.altKey,
  touch: e.pointerType === "touch",
});

function wheel(this: SVGSVGElement, e: WheelEvent): void {
  e.preventDefault();
  const [x, y] = local(this, e);
  const lines = e.deltaMode === 1 ? 16 : 1;
  // A pinch on a touch pad comes as a wheel with Ctrl held, in much smaller steps.
  const pace = e.ctrlKey ? 0.01 : 0.0016;
  zoomBy(Math.exp(-e.deltaY * lines * pace), x, y);
}

function down(this: SVGSVGElement, e: PointerEvent): void {
  const at = local(this, e);
  if (fingers.size === 0) panned = false;
  fingers.set(e.pointerId, at);
  if (fingers.size > 1) {
    abandon();
    return;
  }
  if (e.button > 1) return;
  typing.value = null;
  const over = idOf(e);
  press = { at, over, spot: locate(pointed(e, at, over)), does: e.button === 1 || spaceHeld ? "pan" : "" };
}

/** A second finger, or Escape: what was being dragged goes back. */
export function abandon(): void {
  if (press?.does === "drag") tool.value?.leave?.();
  press = null;
}

function begin(p: Press, element: SVGSVGElement, e: PointerEvent): void {
  element.setPointerCapture(e.pointerId);
  p.does = p.spot && tool.value?.grab?.(p.spot) ? "drag" : "pan";
}

function pinch(before: Vec2, now: Vec2, other: Vec2): void {
  const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
  const is = Math.hypot(now[0] - other[0], now[1] - other[1]);
  panned = true;
  if (was > 0) zoomBy(is / was, (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
  moveBy((now[0] - before[0]) / 2, (now[1] - before[1]) / 2);
}

function move(this: SVGSVGElement, e: PointerEvent): void {
  const now = local(this, e);
  const before = fingers.get(e.pointerId);
  if (before) fingers.set(e.pointerId, now);
  const other = [...fingers].find(([id]) => id !== e.pointerId)?.[1];
  if (before && other) {
    pinch(before, now, other);
    return;
  }
  const p = press;
  if (before && p) {
    if (p.does === "" && Math.hypot(now[0] - p.at[0], now[1] - p.at[1]) > firm) begin(p, this, e);
    if (p.does === "pan") {
      panned = true;
      moveBy(now[0] - before[0], now[1] - before[1]);
      return;
    }
  }
  if (e.pointerType === "touch" && p?.does !== "drag") return;
  if (resting()) return;
  const s = locate(pointed(e, now, p?.does === "drag" ? "" : idOf(e)));
  if (p?.does === "drag" && p.spot && s) {
    comeTo(s);
    tool.value?.drag?.(s, p.spot);
  } else if (!before) comeTo(s);
}

function up(this: SVGSVGElement, e: PointerEvent): void {
  fingers.delete(e.pointerId);
  const p = press;
  press = null;
  if (!p || e.button > 1) return;
  const at = local(this, e);
  const s = locate(pointed(e, at, p.does === "drag" ? "" : p.over));
  if (p.does === "drag" && p.spot && s) tool.value?.drop?.(s, p.spot);
  else if (p.does === "" && !panned && e.button === 0) click(s, p.over, e);
}

let lastClick = { time: 0, at: [0, 0] as Vec2, tool: "" };
const twice = 350; // ms within which a second click makes a double one

function click(s: Spot | null, over: string, e: PointerEvent): void {
  const at: Vec2 = [e.clientX, e.clientY];
  const held = tool.value?.id ?? "";
  const again =
    held === lastClick.tool &&
    e.timeStamp - lastClick.time < twice &&
    Math.hypot(at[0] - lastClick.at[0], at[1] - lastClick.at[1]) < 8;
  lastClick = { time: again ? 0 : e.timeStamp, at, tool: held };
  mean(s, over, e.shiftKey, again);
}

/** A click, tap or Enter on a spot or a thing; again says that it is the second on the same place. */
export function mean(s: Spot | null, over: string, shift: boolean, again: boolean): void {
  const held = tool.value;
  if (!held) return;
  if (held.pick) {
    if (again) held.open?.(over);
    else held.pick(over, shift);
    return;
  }
  if (!s || !fits(s)) return;
  comeTo(s);
  if (again) held.finish?.(s);
  else held.set?.(s);
}

/** Whether the tool in the hand works in the frame of a spot. */
export function fits(s: Spot): boolean {
  const frames: readonly string[] = tool.value?.frames ?? ["plan", "wall"];
  return frames.includes(s.frame.kind);
}

function cancel(this: SVGSVGElement, e: PointerEvent): void {
  fingers.delete(e.pointerId);
  abandon();
}

/** A figure is being typed for the spot shown: the pointer may tremble or come to lie under the field. */
const resting = (): boolean => typing.value !== null && press === null;

function leave(e: PointerEvent): void {
  if (!press && !resting() && e.pointerType !== "touch") comeTo(null);
}

/** The blank bar held down turns a drag into a move of the drawing. */
function blank(e: KeyboardEvent): void {
  if (e.key === " ") spaceHeld = e.type === "keydown";
}

/** Lays the hand on a drawing. Returns the way to let go of it. */
export function layHand(element: SVGSVGElement): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  element.addEventListener("wheel", wheel, { passive: false, signal });
  element.addEventListener("pointerdown", down, { signal });
  element.addEventListener("pointermove", move, { signal });
  element.addEventListener("pointerup", up, { signal });
  element.addEventListener("pointercancel", cancel, { signal });
  element.addEventListener("pointerleave", leave, { signal });
  addEventListener("keydown", blank, { signal });
  addEventListener("keyup", blank, { signal });
  return () => {
    stop.abort();
    fingers.clear();
    press = null;
  };
}
