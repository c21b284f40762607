import { signal } from "@preact/signals";
import { step } from "../../state/post.ts";
import { lineWords } from "../../words/lines.ts";
import { spot } from "../hand.ts";
import { type Course, lineGesture, type Stand, standOf } from "../line/course.ts";
import { kit, openKit } from "../line/kit.ts";
import { Choice, StockAndSize, StockCaution } from "../line/options.tsx";
import { taken } from "../line/taken.ts";
import { Dot, Ghost } from "../over.tsx";
import type { Spot } from "../space.ts";
import type { Tool } from "../tool.ts";
import { squareWay } from "./square.ts";

const words = lineWords.connect;

const begun = signal<Stand | null>(null);
const flexible = signal(true);
const kinds = new Set(["point", "run"] as const);

function way(from: Stand, to: Stand): Course {
  const via = squareWay(from.at, to.at).map((at): Stand => ({ at, wall: null, held: null }));
  return { from, via: [...via, to] };
}

function set(s: Spot): void {
  const here = standOf(s);
  if (!here.held) return;
  const from = begun.value;
  if (!from) {
    begun.value = here;
    return;
  }
  const gesture = lineGesture(way(from, here), { ...kit.value, role: "link", corners: "" }, flexible.value);
  if (!gesture) return;
  void step(gesture).then((o) => {
    if (o.done) begun.value = null;
  });
}

function clear(): boolean {
  const had = begun.value !== null;
  begun.value = null;
  return had;
}

function Over() {
  const from = begun.value;
  if (!from) return null;
  const s = spot.value;
  const to = s && standOf(s);
  return (
    <>
      <Dot at={from.at} />
      {to && <Ghost at={[from.at, ...squareWay(from.at, to.at), to.at]} faint={!to.held} />}
    </>
  );
}

function Options() {
  return (
    <>
      <label class="tick" title={words.why}>
        <input
          type="checkbox"
          checked={flexible.value}
          onChange={(e) => {
            flexible.value = e.currentTarget.checked;
          }}
        />
        {words.flexible}
      </label>
      <StockAndSize
        made={kit.value}
        change={(made) => {
          kit.value = made;
        }}
      />
      <Choice
        label={lineWords.state}
        value={kit.value.state}
        rows={Object.entries(lineWords.states)}
        change={(state) => {
          kit.value = { ...kit.value, state };
        }}
      />
      <StockCaution stock={kit.value.stock} />
    </>
  );
}

/** Plant is joined to plant by a short line, with a flexible link where it shakes. */
export const connect: Tool = {
  id: "connect",
  words: words.words,
  key: "c",
  part: "plant",
  hint: () => (begun.value ? words.next : words.begin),
  reach: () => ({ kinds, standoff: 0, without: taken.value }),
  from: () => begun.value?.at ?? null,
  start: openKit,
  stop: () => void clear(),
  set,
  back: clear,
  leave: clear,
  Over,
  Options,
};
