import { signal } from "@preact/signals";
import { spot, wallHere } from "./hand.ts";
import { tool } from "./tool.ts";

export type Asked = "length" | "height" | "off";

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
