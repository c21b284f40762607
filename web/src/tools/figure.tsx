import { useEffect, useRef, useState } from "preact/hooks";
import { lengthWords, quantity } from "../state/unit.ts";

/** What is being read, and the fields whose text cannot be: a tool waits for them before it places anything. */
let reading: Promise<unknown> = Promise.resolve();
const unread = new Set<object>();

/** Whether all that was typed into figures is understood, also what was typed just before the drawing was clicked. */
export async function figuresRead(): Promise<boolean> {
  const now = document.activeElement;
  if (now instanceof HTMLInputElement && now.closest(".figure-field")) now.blur();
  await reading;
  return unread.size === 0;
}

/** A figure that is typed freely: the program reads it and tells back what it understood. */
export function FigureField({
  label,
  kind,
  si,
  change,
}: {
  label: string;
  /** A kind of quantity as the program calls it. */
  kind: "length" | "volume" | "gauge pressure";
  /** The figure as it stands, SI; 0 for none. */
  si: number;
  change: (si: number) => void;
}) {
  const field = useRef<HTMLInputElement>(null);
  const come = useRef(false);
  const [wrong, setWrong] = useState("");
  const shown = useShown(kind, si);
  useEffect(() => {
    if (field.current && document.activeElement !== field.current) field.current.value = shown;
  }, [shown]);
  const read = (text: string) => {
    const me = field;
    if (text.trim() === "" || text === shown) {
      unread.delete(me);
      setWrong("");
      return;
    }
    reading = quantity(kind, text, undefined, shown).then(
      (q) => {
        unread.delete(me);
        setWrong("");
        if (field.current) field.current.value = q.words;
        change(q.si);
      },
      (e: unknown) => {
        unread.add(me);
        setWrong(e instanceof Error ? e.message : "");
      },
    );
  };
  useEffect(() => () => void unread.delete(field), []);
  return (
    <label class="select figure-field">
      <span>{label}</span>
      <input
        ref={field}
        defaultValue={shown}
        aria-invalid={wrong !== ""}
        title={wrong}
        autocomplete="off"
        onFocus={(e) => {
          come.current = true;
          e.currentTarget.select();
        }}
        onPointerUp={(e) => {
          // The click that came into the field would set the caret and let the selection go.
          if (come.current) e.currentTarget.select();
          come.current = false;
        }}
        onChange={(e) => read(e.currentTarget.value)}
        onKeyDown={(e) => {
          if (e.key === "Enter") read(e.currentTarget.value);
        }}
      />
      {wrong !== "" && (
        <span class="field-wrong" role="alert">
          {wrong}
        </span>
      )}
    </label>
  );
}

/** The figure in the person's units: lengths are worded here, the rest by the program. */
function useShown(kind: string, si: number): string {
  const [text, setText] = useState("");
  useEffect(() => {
    if (kind === "length" || si <= 0) return;
    const stop = new AbortController();
    const typed = kind === "volume" ? `${si * 1000} L` : `${si / 1000} kPa`;
    quantity(kind, typed, stop.signal).then(
      (q) => setText(q.words),
      () => {},
    );
    return () => stop.abort();
  }, [kind, si]);
  if (si <= 0) return "";
  return kind === "length" ? lengthWords(si) : text;
}
