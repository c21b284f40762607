import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { pane } from "../state/look.ts";
import { quantity } from "../state/unit.ts";
import { words } from "../words/words.ts";
import { comeTo, height, lookAgain, onWindow, spot, spotAt, standoff, wallHere } from "./hand.ts";
import { far3, type Vec3 } from "./space.ts";
import { tool } from "./tool.ts";
import { type Asked, typing } from "./typing.ts";

const nearlyStraight = 0.06; // of the length: what leans no more is meant straight

/** The direction from one place to another; one that all but follows an axis follows it. */
export function direction(from: Vec3, to: Vec3): Vec3 {
  const d: [number, number, number] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const l = Math.hypot(...d);
  if (l < 1e-9) return [1, 0, 0];
  const main = d.map(Math.abs).indexOf(Math.max(...d.map(Math.abs)));
  if (d.every((v, i) => i === main || Math.abs(v) / l < nearlyStraight))
    return [0, 1, 2].map((i) => (i === main ? Math.sign(d[i] ?? 0) : 0)) as unknown as Vec3;
  return [d[0] / l, d[1] / l, d[2] / l];
}

function takeTyped(what: Asked, si: number): void {
  if (what === "height") height.value = si;
  if (what === "off") standoff.value = si;
  if (what !== "length") {
    lookAgain();
    return;
  }
  const from = tool.value?.from?.();
  const now = spot.value;
  if (!from || !now) return;
  const way = direction(from, now.at);
  const to: Vec3 = [from[0] + way[0] * si, from[1] + way[1] * si, from[2] + way[2] * si];
  // A typed length holds; what lies right there is still met. Straight up in a plan all lies there that stands below.
  const upright = !wallHere(now.frame) && Math.hypot(to[0] - from[0], to[1] - from[1]) < 1e-6;
  const met = spotAt(now.frame, to, 0.002);
  const s = upright && far3(met.at, to) > 0.02 ? spotAt(now.frame, to) : met;
  comeTo(s);
  tool.value?.set?.(s);
}

const fieldWide = 260; // px: at most so wide is the field with its words

/** The field at the pointer: what is typed is read by the program and told back before it counts. */
export function Typed({ done }: { done: () => void }) {
  const now = typing.value;
  const input = useRef<HTMLInputElement>(null);
  const echo = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const field = input.current;
    field?.focus();
    field?.setSelectionRange(field.value.length, field.value.length);
  }, [now?.what]);
  useEffect(() => {
    if (!now || now.text === "") return;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      quantity("length", now.text, stop.signal).then(
        (q) => tell(q.words),
        (e: unknown) => stop.signal.aborted || tell(e instanceof Error ? e.message : ""),
      );
    }, 120);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [now?.text]);
  const tell = (text: string) => {
    if (echo.current) echo.current.textContent = text;
  };
  if (!now) return null;
  const close = () => {
    typing.value = null;
    done();
  };
  const enter = () =>
    quantity("length", now.text).then(
      (q) => {
        close();
        takeTyped(now.what, q.si);
      },
      (e: unknown) => tell(e instanceof Error ? e.message : ""),
    );
  const [x, y] = spot.value ? onWindow(spot.value.at, spot.value.frame) : [24, 24];
  const left = Math.max(8, Math.min(x + 16, pane.value.width - fieldWide));
  const top = Math.max(8, Math.min(y - 72, pane.value.height - 80));
  return (
    <form
      class="typed"
      style={{ transform: `translate(${left}px, ${top}px)` }}
      onSubmit={(e) => {
        e.preventDefault();
        void enter();
      }}
    >
      <label>
        <span>{(now.what === "length" && tool.value?.typedWords?.()) || words.typed[now.what]}</span>
        <input
          ref={input}
          value={now.text}
          inputMode="text"
          autocomplete="off"
          aria-describedby="typed-echo"
          onInput={(e) => {
            typing.value = { ...now, text: e.currentTarget.value };
          }}
          onKeyDown={(e) => {
            e.stopPropagation();
            if (e.key === "Escape") close();
          }}
        />
      </label>
      <span ref={echo} class="echo" id="typed-echo" role="status">
        {words.typedHint}
      </span>
    </form>
  );
}
