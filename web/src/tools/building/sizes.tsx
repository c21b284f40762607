import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Problem } from "../../api/types.gen.ts";
import { selection } from "../../state/ask.ts";
import { frames, pieces } from "../../state/live.ts";
import { pane } from "../../state/look.ts";
import { step } from "../../state/post.ts";
import { lengthWords, quantity } from "../../state/unit.ts";
import { buildingWords } from "../../words/building.ts";
import { onWindow } from "../hand.ts";
import type { Vec2 } from "../space.ts";
import { marking, tool } from "../tool.ts";
import { type Size, sizesOf, wallUnder } from "./size.ts";

const words = buildingWords.sizes;

/** The size being typed over: its thing and key; "" for none. */
const typed = signal("");

interface Shown extends Size {
  id: string;
  a: Vec2;
  b: Vec2;
  /** Where its button stands. */
  at: Vec2;
}

/** The sizes of the one thing chosen, where they stand in the window. */
function shown(): Shown[] {
  const [id = "", ...more] = selection.value;
  if (tool.value?.id !== "select" || marking() || id === "" || more.length > 0) return [];
  const all = pieces.value;
  const frame = frames.value.find(
    (f) => f.kind === "plan" || (f.kind === "wall" && f.wall === wallUnder(all, id)),
  );
  if (!frame) return [];
  return sizesOf(all, id, frame.kind === "plan" ? "plan" : "wall").map((s) => {
    const [a, b] = [onWindow(s.from, frame), onWindow(s.to, frame)];
    const long = Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), 1e-6);
    // y runs down in the window: the left of the way is (dy, −dx). An elevation may be mirrored, the plan is not.
    const side = frame.flip ? -s.beside : s.beside;
    const off: Vec2 = [((b[1] - a[1]) / long) * side, (-(b[0] - a[0]) / long) * side];
    const move = (p: Vec2): Vec2 => [p[0] + off[0], p[1] + off[1]];
    const [from, to] = [move(a), move(b)];
    return { ...s, id, a: from, b: to, at: within([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]) };
  });
}

/** A button stays in sight as long as its thing is. */
function within(p: Vec2): Vec2 {
  const { width, height } = pane.value;
  const edge = 14;
  return [
    Math.min(Math.max(p[0], edge * 2), width - edge * 2),
    Math.min(Math.max(p[1], edge), height - edge),
  ];
}

/** What would fit instead. */
const nearestOf = (p: Problem | undefined): string =>
  p ? [p.want, ...(p.nearest ? [buildingWords.nearest(p.nearest)] : [])].join("; ") : "";

const pause = 150; // ms after the last key before the program is asked

function Field({ size, done }: { size: Shown; done: () => void }) {
  const input = useRef<HTMLInputElement>(null);
  const told = useRef<HTMLSpanElement>(null);
  const tell = (text: string) => {
    if (told.current) told.current.textContent = text;
  };
  useEffect(() => {
    input.current?.focus();
    input.current?.select();
  }, []);
  const why = (e: unknown) => tell(e instanceof Error ? e.message : "");
  const asking = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  useEffect(() => () => clearTimeout(asking.current), []);
  const ask = () => {
    const text = input.current?.value ?? "";
    return quantity("length", text, undefined, lengthWords(size.length_m)).then(
      (q) => input.current?.value === text && tell(q.words),
      why,
    );
  };
  const enter = async () => {
    clearTimeout(asking.current);
    const text = input.current?.value ?? "";
    const q = await quantity("length", text, undefined, lengthWords(size.length_m)).catch(why);
    if (!q) return;
    const o = await step(size.become(q.si));
    if (o.done) done();
    // The reason stands above the drawing; the field stays to be put right.
    else tell(nearestOf(o.problems[0]) || o.why);
  };
  return (
    <form
      class="size-field"
      onSubmit={(e) => {
        e.preventDefault();
        void enter();
      }}
    >
      <label>
        <span>{size.words}</span>
        <input
          ref={input}
          defaultValue={lengthWords(size.length_m)}
          autocomplete="off"
          aria-describedby="size-told"
          onInput={() => {
            clearTimeout(asking.current);
            asking.current = setTimeout(() => void ask(), pause);
          }}
        />
      </label>
      <span ref={told} id="size-told" class="echo" role="status">
        {words.type}
      </span>
    </form>
  );
}

const focusSize = (key: string): void =>
  document.querySelector<HTMLElement>(`[data-size="${CSS.escape(key)}"]`)?.focus();

function One({ size }: { size: Shown }) {
  const key = `${size.id} ${size.key}`;
  const open = typed.value === key;
  const [x, y] = size.at;
  const close = () => {
    typed.value = "";
    requestAnimationFrame(() => focusSize(key));
  };
  const place = { transform: `translate(${x}px, ${y}px) translate(-50%, -50%)` };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: what is inside takes the keys
    <div
      class={`size${open ? " open" : ""}`}
      style={place}
      onKeyDown={(e) => {
        // Keys here are not for the tool; Esc leaves the field, on a button it lets go of the thing.
        if (e.key !== "Escape" || open) e.stopPropagation();
        if (e.key === "Escape" && open) close();
      }}
    >
      {open ? (
        <Field size={size} done={close} />
      ) : (
        <button
          type="button"
          data-size={key}
          aria-label={`${size.words}: ${lengthWords(size.length_m)}`}
          title={size.words}
          onClick={() => {
            typed.value = key;
          }}
        >
          {lengthWords(size.length_m)}
        </button>
      )}
    </div>
  );
}

const tick = 4; // px, half of the stroke that ends a size line

function mark(s: Shown): string {
  const long = Math.hypot(s.b[0] - s.a[0], s.b[1] - s.a[1]) || 1;
  const [x, y] = [(-(s.b[1] - s.a[1]) / long) * tick, ((s.b[0] - s.a[0]) / long) * tick];
  const end = (p: Vec2) => `M${p[0] - x} ${p[1] - y}L${p[0] + x} ${p[1] + y}`;
  return `M${s.a.join(" ")}L${s.b.join(" ")}${end(s.a)}${end(s.b)}`;
}

/** The sizes of the room, wall or opening chosen, on the drawing, to be typed over. */
export function Sizes() {
  const all = shown();
  if (all.length === 0) return null;
  return (
    // biome-ignore lint/a11y/useSemanticElements: buttons on a drawing are no fieldset
    <div class="sizes" role="group" aria-label={words.label}>
      <svg aria-hidden="true">
        {all.map((s) => (
          <path key={s.key} d={mark(s)} />
        ))}
      </svg>
      {all.map((s) => (
        <One key={s.key} size={s} />
      ))}
    </div>
  );
}
