import { letGo, panel, view } from "../state/ask.ts";
import { redoWords, undoWords } from "../state/live.ts";
import { fit, moveBy, zoomBy } from "../state/look.ts";
import { redo, undo } from "../state/post.ts";
import { bypassChosen, composeChosen, joinChosen, markAs, openStock } from "../tools/act/does.ts";

/** What a key does. One row a command; the list of keys is read from here. */
export interface Command {
  keys: readonly string[];
  shift: boolean;
  ctrl?: boolean;
  /** Keys of the drawing work while it has the focus; keys of the page everywhere but in fields. */
  where: "drawing" | "page";
  /** How the list of keys has it; "" is not listed. */
  shown: string;
  words: string;
  run(): void;
}

const nudge = 60;

const row = (
  where: Command["where"],
  keys: readonly string[],
  shown: string,
  words: string,
  run: () => void,
  more: { shift?: boolean; ctrl?: boolean } = {},
): Command => ({ where, keys, shown, words, run, shift: false, ...more });

const shift = { shift: true };
const ctrl = { ctrl: true };

const look = (id: string) => () => {
  view.value = id;
};

export const commands: readonly Command[] = [
  row("page", ["z"], "Ctrl Z", "undo", () => void (undoWords.value && undo()), ctrl),
  row("page", ["Z", "z"], "Ctrl Shift Z", "do again", () => void (redoWords.value && redo()), {
    shift: true,
    ctrl: true,
  }),
  row("page", ["y"], "", "", () => void (redoWords.value && redo()), ctrl),
  row("page", ["?"], "?", "every key, and help", () => {
    panel.value = panel.value === "help" ? "" : "help";
  }),
  row("drawing", ["1"], "1 2 3 4", "plan, walls, in space, diagram", look("plan")),
  row("drawing", ["2"], "", "", look("elevation")),
  row("drawing", ["3"], "", "", look("isometric")),
  row("drawing", ["4"], "", "", look("diagram")),
  row("drawing", ["+", "="], "+", "come closer", () => zoomBy(1.3)),
  row("drawing", ["-", "_"], "−", "step back", () => zoomBy(1 / 1.3)),
  row("drawing", ["0"], "0", "see the whole shop", fit),
  row("drawing", ["ArrowLeft"], "Shift ← → ↑ ↓", "move the drawing", () => moveBy(nudge, 0), shift),
  row("drawing", ["ArrowRight"], "", "", () => moveBy(-nudge, 0), shift),
  row("drawing", ["ArrowUp"], "", "", () => moveBy(0, nudge), shift),
  row("drawing", ["ArrowDown"], "", "", () => moveBy(0, -nudge), shift),
  row("drawing", ["j"], "J", "join the runs chosen", joinChosen),
  row("drawing", ["e"], "E N K", "mark as standing, planned, for later", () => markAs("existing")),
  row("drawing", ["n"], "", "", () => markAs("planned")),
  row("drawing", ["k"], "", "", () => markAs("stub")),
  row("drawing", ["y"], "Y", "bypass round what is chosen", bypassChosen),
  row("drawing", ["g"], "G", "what hangs at the outlet chosen", composeChosen),
  row("drawing", ["t"], "T", "change the pipe chosen", openStock),
  row("drawing", ["Escape"], "Esc", "let go of what is chosen", () => {
    if (panel.value !== "") panel.value = "";
    else letGo();
  }),
];

/** The command of a key press; keys with Alt or Meta are the browser's, but for Meta as Ctrl of the page's. */
export function commandOf(e: KeyboardEvent, where: Command["where"]): Command | undefined {
  const ctrl = e.ctrlKey || e.metaKey;
  if (e.altKey) return undefined;
  return commands.find(
    (c) =>
      c.where === where &&
      (c.ctrl ?? false) === ctrl &&
      c.keys.includes(e.key) &&
      (c.shift === e.shiftKey || (e.key.length === 1 && !ctrl)),
  );
}

const isField = (t: EventTarget | null): boolean =>
  t instanceof HTMLElement &&
  t.closest("input:not([type=radio]):not([type=checkbox]), textarea, select") !== null;

/** Keys of the page, wherever the focus is. */
export function followKeys(): void {
  addEventListener("keydown", (e) => {
    if (e.defaultPrevented || isField(e.target)) return;
    const command = commandOf(e, "page");
    if (!command) return;
    e.preventDefault();
    command.run();
  });
}
