import { look, moved, zoomed } from "../state/look.ts";

interface Finger {
  x: number;
  y: number;
}

/** Wheel, drag and pinch on the drawing. Returns the way to let go of it. */
export function grip(element: SVGSVGElement): () => void {
  const fingers = new Map<number, Finger>();
  let dragged = 0;
  const local = (e: { clientX: number; clientY: number }): Finger => {
    const r = element.getBoundingClientRect();
    return { x: e.clientX - r.left, y: e.clientY - r.top };
  };
  const wheel = (e: WheelEvent) => {
    e.preventDefault();
    const at = local(e);
    const lines = e.deltaMode === 1 ? 16 : 1;
    // A pinch on a touch pad comes as a wheel with Ctrl held, in much smaller steps.
    const pace = e.ctrlKey ? 0.01 : 0.0016;
    look.value = zoomed(look.value, Math.exp(-e.deltaY * lines * pace), at.x, at.y);
  };
  const down = (e: PointerEvent) => {
    if (fingers.size === 0) dragged = 0;
    fingers.set(e.pointerId, local(e));
  };
  const move = (e: PointerEvent) => {
    const before = fingers.get(e.pointerId);
    if (!before) return;
    const now = local(e);
    const other = [...fingers].find(([id]) => id !== e.pointerId)?.[1];
    fingers.set(e.pointerId, now);
    dragged += Math.hypot(now.x - before.x, now.y - before.y);
    if (other) {
      const was = Math.hypot(before.x - other.x, before.y - other.y);
      const is = Math.hypot(now.x - other.x, now.y - other.y);
      if (was > 0) look.value = zoomed(look.value, is / was, (now.x + other.x) / 2, (now.y + other.y) / 2);
    } else {
      if (dragged > 4) element.setPointerCapture(e.pointerId);
      look.value = moved(look.value, now.x - before.x, now.y - before.y);
    }
  };
  const up = (e: PointerEvent) => {
    fingers.delete(e.pointerId);
  };
  // A drag that ends on a thing must not choose it.
  const click = (e: MouseEvent) => {
    if (dragged > 6) e.stopPropagation();
    dragged = 0;
  };
  element.addEventListener("wheel", wheel, { passive: false });
  element.addEventListener("pointerdown", down);
  element.addEventListener("pointermove", move);
  element.addEventListener("pointerup", up);
  element.addEventListener("pointercancel", up);
  element.addEventListener("click", click, true);
  return () => {
    element.removeEventListener("wheel", wheel);
    element.removeEventListener("pointerdown", down);
    element.removeEventListener("pointermove", move);
    element.removeEventListener("pointerup", up);
    element.removeEventListener("pointercancel", up);
    element.removeEventListener("click", click, true);
  };
}
