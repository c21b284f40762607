import { useEffect, useRef, useState } from "preact/hooks";
import { lengthWords, quantity } from "../state/unit.ts";

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
  const [wrong, setWrong] = useState("");
  const shown = useShown(kind, si);
  useEffect(() => {
    if (field.current && document.activeElement !== field.current) field.current.value = shown;
  }, [shown]);
  const read = (text: string) => {
    if (text.trim() === "" || text === shown) return;
    quantity(kind, text).then(
      (q) => {
        setWrong("");
        if (field.current) field.current.value = q.words;
        change(q.si);
      },
      (e: unknown) => setWrong(e instanceof Error ? e.message : ""),
    );
  };
  return (
    <label class="select figure-field">
      <span>{label}</span>
      <input
        ref={field}
        defaultValue={shown}
        aria-invalid={wrong !== ""}
        title={wrong}
        autocomplete="off"
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
