import { signal } from "@preact/signals";
import type { SceneItem } from "../api/types.gen.ts";

/** Lines of a proposal that lie over the plan, before it is taken; its name, "" for none. */
export const over = signal<{ name: string; lines: readonly SceneItem[] }>({ name: "", lines: [] });

export function layOver(name: string, lines: readonly SceneItem[]): void {
  over.value = { name, lines };
}

export const layNothingOver = (): void => layOver("", []);
