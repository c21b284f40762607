import type { ScreenHead } from "./api/types.gen.ts";
import { panels } from "./questions/panels.ts";
import { panel, room, view } from "./state/ask.ts";
import { pieces, redoWords, undoWords } from "./state/live.ts";
import { fit, zoomBy } from "./state/look.ts";
import { redo, undo } from "./state/post.ts";
import { words } from "./words/words.ts";

/** The four views of the one thing. */
function Views({ head }: { head: ScreenHead }) {
  return (
    <fieldset class="segments">
      <legend class="hidden">{words.view}</legend>
      {head.views.map((v) => (
        <label key={v.id} title={v.note ?? v.words}>
          <input
            type="radio"
            name="view"
            checked={view.value === v.id}
            onChange={() => {
              view.value = v.id;
            }}
          />
          <span>{words.views[v.id] ?? v.words}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** Whose walls the elevation unrolls. */
function Rooms() {
  const rooms = [...pieces.value.values()].filter((p) => p.what === "room");
  if (view.value !== "elevation" || rooms.length < 2) return null;
  return (
    <label class="select">
      <span class="hidden">{words.room}</span>
      <select
        value={room.value || rooms[0]?.id}
        onChange={(e) => {
          room.value = e.currentTarget.value;
        }}
      >
        {rooms.map((r) => (
          <option key={r.id} value={r.id}>
            {r.words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** One step back and one forward again; the words say which. */
function Steps() {
  const back = undoWords.value;
  const on = redoWords.value;
  return (
    <div class="steps-back">
      <button
        type="button"
        class="step"
        disabled={back === ""}
        title={back}
        onClick={(e) => letKeys(e, undo)}
      >
        <span aria-hidden="true">↶</span> {words.undo}
        <span class="of-what">{back}</span>
      </button>
      <button type="button" class="step" disabled={on === ""} title={on} onClick={(e) => letKeys(e, redo)}>
        <span aria-hidden="true">↷</span> <span class={on === "" ? "hidden" : ""}>{words.redo}</span>
        <span class="of-what">{on}</span>
      </button>
    </div>
  );
}

/** A click with the pointer leaves the keys to the tool in the hand; by key the button keeps them. */
function letKeys(e: MouseEvent, act: () => Promise<unknown>): void {
  if (e.detail > 0) (e.currentTarget as HTMLElement).blur();
  void act();
}

/** What may stand beside the drawing instead of the answer. */
export function Panels() {
  return (
    <div class="bar-end">
      {panels
        .filter((p) => p.button)
        .map((p) => (
          <button
            key={p.id}
            type="button"
            class="plain"
            aria-pressed={panel.value === p.id}
            onClick={() => {
              panel.value = panel.value === p.id ? "" : p.id;
            }}
          >
            {p.words}
          </button>
        ))}
      <button type="button" class="plain" onClick={() => print()}>
        {words.print}
      </button>
    </div>
  );
}

/** How close the drawing is looked at. */
export function Zoom() {
  return (
    <div class="zoom">
      <button type="button" aria-label={words.zoomOut} onClick={() => zoomBy(1 / 1.4)}>
        −
      </button>
      <button type="button" onClick={fit}>
        {words.fit}
      </button>
      <button type="button" aria-label={words.zoomIn} onClick={() => zoomBy(1.4)}>
        +
      </button>
    </div>
  );
}

/** Over the drawing: which view, and the last step. */
export function Bar({ head }: { head: ScreenHead }) {
  return (
    <div class="bar">
      <Views head={head} />
      <Rooms />
      <Steps />
    </div>
  );
}
