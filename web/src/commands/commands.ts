import { chosen } from "../state/ask.ts";
import { fitted, look, moved, zoomed } from "../state/look.ts";

/** What a key does while the drawing has the focus. One row a command; the list of keys is read from here. */
export interface Command {
  keys: readonly string[];
  shift: boolean;
  shown: string;
  words: string;
  run(window: { width: number; height: number }): void;
}

const nudge = 60;

export const commands: readonly Command[] = [
  {
    keys: ["+", "="],
    shift: false,
    shown: "+",
    words: "come closer",
    run: (w) => {
      look.value = zoomed(look.value, 1.3, w.width / 2, w.height / 2);
    },
  },
  {
    keys: ["-", "_"],
    shift: false,
    shown: "−",
    words: "step back",
    run: (w) => {
      look.value = zoomed(look.value, 1 / 1.3, w.width / 2, w.height / 2);
    },
  },
  {
    keys: ["0"],
    shift: false,
    shown: "0",
    words: "see the whole shop",
    run: () => {
      look.value = fitted;
    },
  },
  {
    keys: ["ArrowLeft"],
    shift: true,
    shown: "Shift ← → ↑ ↓",
    words: "move the drawing",
    run: () => {
      look.value = moved(look.value, nudge, 0);
    },
  },
  {
    keys: ["ArrowRight"],
    shift: true,
    shown: "",
    words: "",
    run: () => {
      look.value = moved(look.value, -nudge, 0);
    },
  },
  {
    keys: ["ArrowUp"],
    shift: true,
    shown: "",
    words: "",
    run: () => {
      look.value = moved(look.value, 0, nudge);
    },
  },
  {
    keys: ["ArrowDown"],
    shift: true,
    shown: "",
    words: "",
    run: () => {
      look.value = moved(look.value, 0, -nudge);
    },
  },
  {
    keys: ["Escape"],
    shift: false,
    shown: "Esc",
    words: "let go of what is chosen",
    run: () => {
      chosen.value = "";
    },
  },
];

/** The command of a key press; keys with Ctrl, Alt or Meta are the browser's. */
export function commandOf(e: KeyboardEvent): Command | undefined {
  if (e.ctrlKey || e.altKey || e.metaKey) return undefined;
  return commands.find((c) => c.keys.includes(e.key) && (c.shift === e.shiftKey || e.key.length === 1));
}
