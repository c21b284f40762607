import { signal } from "@preact/signals";
import { selection } from "../state/ask.ts";
import { say } from "../state/notice.ts";
import { cursor, jumpCursor, raise, stepCursor } from "./cursor.ts";
import { comeTo, spot } from "./hand.ts";
import { sayWhere } from "./over.tsx";
import { abandon, fits, mean } from "./pointer.ts";
import type { Spot } from "./space.ts";
import { take, tool, tools } from "./tool.ts";
import { typeHeight, typeLength, typeOn } from "./typing.ts";
import type { Way } from "./walk.ts";

/** The thing that the keys came to last. */
export const stop = signal("");

const arrows: Record<string, Way> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};

/** Where Enter was pressed last, and with which tool: a second time on the same spot ends what was begun. */
let entered: { spot: Spot; tool: string } | null = null;

const same = (a: Spot, b: Spot): boolean => a.frame === b.frame && a.at.every((v, i) => v === b.at[i]);

function tell(): void {
  if (spot.value) say(sayWhere(spot.value));
}

/** Keys of a tool that places things: they move the cursor and set it. */
function placing(e: KeyboardEvent): boolean {
  const way = arrows[e.key];
  if (way) {
    if (e.ctrlKey || e.altKey) jumpCursor(way);
    else stepCursor(way, e.shiftKey);
    tell();
    return true;
  }
  if (e.ctrlKey || e.altKey || e.metaKey) return false;
  if (e.key === "Enter" || e.key === " ") {
    const s = cursor();
    if (!s) return true;
    comeTo(s);
    const again = entered !== null && entered.tool === tool.value?.id && same(entered.spot, s);
    entered = again ? null : { spot: s, tool: tool.value?.id ?? "" };
    mean(s, "", e.shiftKey, again);
    tell();
  } else if (e.key === "PageUp" || e.key === "PageDown") {
    raise(e.key === "PageUp" ? 1 : -1, e.shiftKey);
    tell();
  } else if (e.key === "h" || e.key === "H") typeHeight();
  else if (e.key === "Backspace") tool.value?.back?.();
  else if (/^[\d.,']$/.test(e.key)) return typeLength(e.key);
  else return false;
  return true;
}

/** Keys of a tool that deals with things: Enter chooses the one that has the focus. */
function picking(e: KeyboardEvent, over: string): boolean {
  if ((e.key !== "Enter" && e.key !== " ") || over === "") return false;
  stop.value = over;
  const already = !e.shiftKey && selection.value.length === 1 && selection.value[0] === over;
  mean(null, over, e.shiftKey, already);
  return true;
}

/** Hands a key to the tool in the hand; true where it was used. over is the thing that has the focus. */
export function toolKeyed(e: KeyboardEvent, over: string): boolean {
  const held = tool.value;
  if (!held) return false;
  if (e.key === "Escape") return stepOut();
  if (typeOn(e)) return true;
  if (held.other?.(e, spot.value)) return true;
  const s = spot.value;
  if (held.pick ? picking(e, over) : (!s || fits(s)) && placing(e)) return true;
  if (e.ctrlKey || e.altKey || e.metaKey) return false;
  const wanted = tools.value.find((t) => t.key !== "" && t.key === e.key.toLowerCase());
  if (wanted) take(wanted.id);
  return wanted !== undefined;
}

/** First what was begun is dropped, then the tool is put down, then what is chosen is let go (a command does that). */
function stepOut(): boolean {
  const held = tool.value;
  entered = null;
  if (held?.leave?.()) {
    abandon();
    return true;
  }
  if (held && !held.pick) {
    take("select");
    return true;
  }
  return false;
}
