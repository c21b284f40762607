import { type Theme, theme, themes } from "./state/theme.ts";
import { words } from "./words/words.ts";

/** Light, dark, or as the system has it. */
export function ChooseTheme() {
  return (
    <label class="select">
      <span class="hidden">{words.themeLabel}</span>
      <select
        value={theme.value}
        onChange={(e) => {
          theme.value = e.currentTarget.value as Theme;
        }}
      >
        {themes.map((t) => (
          <option key={t} value={t}>
            {words.theme[t]}
          </option>
        ))}
      </select>
    </label>
  );
}
