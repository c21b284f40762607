import { effect, signal } from "@preact/signals";
import { words } from "../words/words.ts";

const key = "dropleg.name";

/** The name that the history writes beside what is done in this browser; no two shall begin with the same. */
export const myName = signal(`${words.browser} ${100 + Math.floor(Math.random() * 900)}`);

export function followName(): void {
  try {
    myName.value = localStorage.getItem(key) || myName.value;
  } catch {
    // Storage is shut: the name lasts as long as the page.
  }
  effect(() => {
    try {
      localStorage.setItem(key, myName.value);
    } catch {
      // As above.
    }
  });
}
