import { panel } from "../state/ask.ts";
import { words } from "../words/words.ts";

const closePanel = () => {
  panel.value = "";
};

/** The way out of a panel, at its top; without more said it closes the panel. */
export function Back({ said = words.close, leave = closePanel }: { said?: string; leave?: () => void }) {
  return (
    <button type="button" class="back" onClick={leave}>
      ← {said}
    </button>
  );
}
