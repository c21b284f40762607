import { signal } from "@preact/signals";

/** Something that the person should know about what was just done; it goes with the next step that works. */
export interface Trouble {
  kind: "refused" | "conflict" | "failed";
  words: string;
  /** What keeps it from fitting, one line each. */
  lines: readonly string[];
}

export const trouble = signal<Trouble | null>(null);

/** Said aloud to those who do not see the drawing: what was done, where the cursor is. */
export const spoken = signal("");

export function say(text: string): void {
  spoken.value = text;
}
