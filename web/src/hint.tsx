import { Zoom } from "./bar.tsx";
import { frames } from "./state/live.ts";
import { spoken, trouble } from "./state/notice.ts";
import { spot } from "./tools/hand.ts";
import { fits } from "./tools/pointer.ts";
import { tool } from "./tools/tool.ts";
import { words } from "./words/words.ts";

/** Whether the tool in the hand has a frame to work in. */
function works(): boolean {
  const held = tool.value;
  if (!held || held.pick) return true;
  const s = spot.value;
  if (s) return fits(s);
  const kinds: readonly string[] = held.frames ?? ["plan", "wall"];
  return frames.value.length === 0 || frames.value.some((f) => kinds.includes(f.kind));
}

/** What to do next in one sentence; or why the last step did not fit. */
export function Hint() {
  const held = tool.value;
  const wrong = trouble.value;
  const Options = held?.Options;
  return (
    <div class="hint-line">
      {Options && (
        <div class="tool-options">
          <Options />
        </div>
      )}
      <p id="hint" class="hint">
        {works() ? held?.hint() : words.elsewhere}
      </p>
      <Zoom />
      <div role="alert" class="wrong">
        {wrong && (
          <>
            <p>
              <strong>{wrong.words}</strong> {wrong.lines.join("; ")}
            </p>
            <button
              type="button"
              class="wrong-close"
              onClick={() => {
                trouble.value = null;
              }}
            >
              {words.close}
            </button>
          </>
        )}
      </div>
      <p class="hidden" role="status">
        {spoken.value}
      </p>
    </div>
  );
}
