import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { trouble } from "../state/notice.ts";
import type { Reach } from "./snap.ts";
import type { Spot, Vec3 } from "./space.ts";

/** A figure of the live read-out at the pointer, already in the person's units. */
export interface Figure {
  words: string;
  figure: string;
}

/** What the hand does with an event on the drawing. All are optional: a tool takes what it needs. */
export interface Tool {
  id: string;
  /** What stands in the rail: a verb or a thing, one or two words. */
  words: string;
  /** The key that takes it up while the drawing has the focus; "" for none. */
  key: string;
  /** The rail's part that it stands under. */
  part: "" | "building" | "lines" | "plant";
  /** One sentence: what to do next. It may read signals. */
  hint(): string;
  /** The kinds of frame it works in; elsewhere it says so. Without it: plan and walls. */
  frames?: readonly ("plan" | "wall")[];
  /** It works on the floor: in a plan no height is told at the pointer. */
  flat?: true;
  /** What the pointer snaps to; without it: everything. */
  reach?: () => Reach;
  /** Where a line being drawn stands now: lengths and right angles are counted from here. null: nothing begun. */
  from?: () => Vec3 | null;
  /** What a typed length is called, where it is more than a length; "" for no more. */
  typedWords?: () => string;
  /** Figures at the pointer besides height; without it: the length from `from`. */
  figures?: (spot: Spot) => Figure[];

  /** Taken up and put down. */
  start?: () => void;
  stop?: () => void;
  /** The pointer or the keyboard's cursor has come to a spot. */
  move?: (spot: Spot) => void;
  /** Click, tap, Enter or a typed length: this spot is meant. */
  set?: (spot: Spot) => void;
  /** Double click, or Enter twice on one spot: what was begun is whole. */
  finish?: (spot: Spot) => void;
  /** Instead of set, for a tool that deals with things and not with places: the thing clicked, "" for none. In every view. */
  pick?: (id: string, shift: boolean) => void;
  /** Double click on a thing, or Enter on one that is chosen. */
  open?: (id: string) => void;
  /** Backspace: the last spot is taken back; false where there is none. */
  back?: () => boolean;
  /** Escape: what was begun is dropped; false where nothing was (the select tool is taken up then). */
  leave?: () => boolean;
  /** A key that nothing else wants; true where it was used. */
  other?: (e: KeyboardEvent, spot: Spot | null) => boolean;
  /** Keys for the list of keys: what is pressed, and what it does. */
  keys?: readonly (readonly [string, string])[];

  /** Whether the mark and the figures stand at the pointer; without it: while the tool places things. */
  marking?: () => boolean;
  /** Press and move: true takes the drag; without it a drag moves the drawing. */
  grab?: (spot: Spot) => boolean;
  drag?: (spot: Spot, from: Spot) => void;
  drop?: (spot: Spot, from: Spot) => void;

  /** Painted over the drawing, inside its SVG, in pixels of its window: see paint/over.tsx. */
  Over?: ComponentType;
  /** What is set for the tool: stock, size, kind. Stands above the drawing beside the hint. */
  Options?: ComponentType;
}

const rack = signal<readonly Tool[]>([]);

/** Every tool, in the order of the rail. tools/all.ts fills it. */
export const tools: ReadonlySignal<readonly Tool[]> = rack;

const held = signal("select");

/** The tool in the hand. */
export const tool = computed<Tool | undefined>(() => rack.value.find((t) => t.id === held.value));

/** Whether the mark and the figures stand at the pointer. */
export const marking = (): boolean => tool.value?.marking?.() ?? tool.value?.set !== undefined;

export function lay(out: readonly Tool[]): void {
  rack.value = out;
}

/** Takes up a tool; the one held is put down. */
export function take(id: string): void {
  if (held.value === id || !rack.value.some((t) => t.id === id)) return;
  tool.value?.stop?.();
  trouble.value = null;
  held.value = id;
  tool.value?.start?.();
}
