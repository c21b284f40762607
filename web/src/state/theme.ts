import { effect, signal } from "@preact/signals";

export const themes = ["system", "light", "dark"] as const;
export type Theme = (typeof themes)[number];

const key = "dropleg.theme";

export const theme = signal<Theme>("system");

/** Reads what was chosen last and puts it on the page. A browser that keeps nothing is no fault. */
export function followTheme(): void {
  try {
    const kept = localStorage.getItem(key);
    const known = themes.find((t) => t === kept);
    if (known) theme.value = known;
  } catch {
    // Storage is shut: the system decides.
  }
  effect(() => {
    document.documentElement.dataset.theme = theme.value;
    try {
      localStorage.setItem(key, theme.value);
    } catch {
      // As above.
    }
  });
}
