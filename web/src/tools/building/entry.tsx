import { type Signal, signal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { units } from "../../state/ask.ts";
import { jobUnits, lengthWords, quantity } from "../../state/unit.ts";

/** A figure to be typed: as the person left it, and as the program understood it. Lengths in m, temperatures in K. */
export interface Entry {
  kind: "length" | "temperature";
  /** As typed; null while untouched: then the figure is shown in the person's units. */
  text: Signal<string | null>;
  /** What stood in the field before it was typed in: its unit is that of a bare number. */
  was: Signal<string>;
  si: Signal<number | null>;
  /** What the program says to the text: the length understood, or what is wrong with it. */
  told: Signal<string>;
  wrong: Signal<boolean>;
}

export const entry = (kind: Entry["kind"], si: number | null = null): Entry => ({
  kind,
  text: signal<string | null>(null),
  was: signal(""),
  si: signal(si),
  told: signal(""),
  wrong: signal(false),
});

/** Gives an entry a figure of the page's own; what was typed goes. */
export function put(e: Entry, si: number | null): void {
  e.si.value = si;
  e.text.value = null;
  e.told.value = "";
  e.wrong.value = false;
}

const kelvin = 273.15;

function degrees(k: number): string {
  const us = (units.value || jobUnits.value) === "us";
  const c = k - kelvin;
  return us ? `${Math.round((c * 9) / 5 + 32)} °F` : `${Math.round(c * 10) / 10} °C`;
}

const inWords = (e: Entry): string => {
  if (e.si.value === null) return "";
  return e.kind === "length" ? lengthWords(e.si.value) : degrees(e.si.value);
};

/** Reads what was typed; true where it can be used. An empty field is no figure, and of use. */
export async function settle(e: Entry, stop?: AbortSignal): Promise<boolean> {
  const text = e.text.value;
  if (text === null) return true;
  if (text.trim() === "") {
    put(e, null);
    return true;
  }
  try {
    const q = await quantity(e.kind, text, stop, e.was.value);
    if (e.text.value !== text) return settle(e, stop);
    e.si.value = q.si;
    e.told.value = q.words;
    e.wrong.value = false;
    return true;
  } catch (reason) {
    if (stop?.aborted) return false;
    e.told.value = reason instanceof Error ? reason.message : "";
    e.wrong.value = true;
    return false;
  }
}

/** All of several, each told what is wrong with it. */
export async function settleAll(...all: readonly Entry[]): Promise<boolean> {
  return (await Promise.all(all.map((e) => settle(e)))).every((ok) => ok);
}

const pause = 150; // ms after the last key before the program is asked

/** The field of an entry: read while it is typed, told back beneath. */
export function EntryField({
  label,
  of,
  hint = "",
  kept,
}: {
  label: string;
  of: Entry;
  /** What stands there while it is empty. */
  hint?: string;
  /** Left or Enter, with a figure of use. */
  kept?: (si: number | null) => void;
}) {
  const id = useId();
  const text = of.text.value;
  useEffect(() => {
    if (text === null) return;
    const stop = new AbortController();
    const timer = setTimeout(() => void settle(of, stop.signal), pause);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [text]);
  return (
    <label class="select entry">
      <span>{label}</span>
      <span class="entry-box">
        <input
          value={text ?? inWords(of)}
          placeholder={hint}
          autocomplete="off"
          aria-invalid={of.wrong.value}
          aria-describedby={of.told.value === "" ? undefined : id}
          onInput={(e) => {
            if (of.text.value === null) of.was.value = inWords(of);
            of.text.value = e.currentTarget.value;
          }}
          onChange={() => {
            if (kept) void settle(of).then((ok) => ok && kept(of.si.value));
          }}
        />
        {of.told.value !== "" && text !== null && (
          <span id={id} class={of.wrong.value ? "entry-told wrong-told" : "entry-told"} role="status">
            {of.told.value}
          </span>
        )}
      </span>
    </label>
  );
}

/** A field of plain words. */
export function WordField({
  label,
  of,
  hint = "",
  id,
}: {
  label: string;
  of: Signal<string>;
  hint?: string;
  id?: string;
}) {
  return (
    <label class="select entry word-field">
      <span>{label}</span>
      <input
        {...(id ? { id } : {})}
        value={of.value}
        placeholder={hint}
        autocomplete="off"
        maxLength={80}
        onInput={(e) => {
          of.value = e.currentTarget.value;
        }}
      />
    </label>
  );
}

/** The tool's own field takes the keys; Esc in it gives them back to the drawing. */
export function typeSizes(): void {
  const first = document.querySelector<HTMLElement>(".tool-form input:not([type]), .tool-form select");
  (first ?? document.querySelector<HTMLElement>(".tool-form input"))?.focus();
}

export function backToDrawing(): void {
  document.querySelector<HTMLElement>(".cursor-pad")?.focus({ preventScroll: true });
}

/** T types sizes: every tool of the building that has a form takes the key alike. */
export function typesSizes(e: KeyboardEvent): boolean {
  if (e.key.toLowerCase() !== "t" || e.ctrlKey || e.altKey || e.metaKey) return false;
  typeSizes();
  return true;
}
