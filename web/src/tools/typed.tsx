import { signal } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { quantity } from "../state/unit.ts";
import { words } from "../words/words.ts";
import { comeTo, height, lookAgain, onWindow, spot, spotAt, standoff, wallHere } from "./hand.ts";
import type { Vec3 } from "./space.ts";
import { tool } from "./tool.ts";

type Asked = "length" | "height" | "off";

/** What is being typed at the pointer; null for nothing. */
export const typing = signal<{ what: Asked; text: string } | null>(null);

/** Opens the field for the working height, on a wall for the distance off its face. */
export function typeHeight(): void {
  const f = spot.value?.frame;
  typing.value = { what: f && wallHere(f) ? "off" : "height", text: "" };
}

/** A digit begins a length where there is a place to measure from. */
export function typeLength(first: string): boolean {
  if (!tool.value?.from?.()) return false;
  typing.value = { what: "length", text: first };
  return true;
}

/** A key that came before the field had the focus still belongs into it: fast hands lose nothing. */
export function typeOn(e: KeyboardEvent): boolean {
  const now = typing.value;
  if (!now || e.key.length !== 1 || e.ctrlKey || e.altKey || e.metaKey) return false;
  typing.value = { ...now, text: now.text + e.key };
  return true;
}

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
  // A typed length holds; what lies right there is still met.
  const s = spotAt(now.frame, to, 0.002);
  comeTo(s);
  tool.value?.set?.(s);
}

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
  return (
    <form
      class="typed"
      style={{ transform: `translate(${Math.max(8, x + 16)}px, ${Math.max(8, y - 64)}px)` }}
      onSubmit={(e) => {
        e.preventDefault();
        void enter();
      }}
    >
      <label>
        <span>{words.typed[now.what]}</span>
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
