import type { ComponentChildren } from "preact";
import { backToDrawing } from "./entry.tsx";

/** What is set for a tool, as a form: Enter does it, Esc gives the keys back to the drawing. */
export function ToolForm({ done, children }: { done?: () => void; children: ComponentChildren }) {
  return (
    <form
      class="tool-form"
      onSubmit={(e) => {
        e.preventDefault();
        if (done) done();
        else backToDrawing();
      }}
      onKeyDown={(e) => {
        if (e.key !== "Escape") return;
        e.stopPropagation();
        backToDrawing();
      }}
    >
      {children}
      {!done && <button type="submit" class="hidden" tabIndex={-1} aria-hidden="true" />}
    </form>
  );
}
