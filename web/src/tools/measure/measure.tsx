import { signal } from "@preact/signals";
import { say } from "../../state/notice.ts";
import { lengthWords } from "../../state/unit.ts";
import { words } from "../../words/words.ts";
import { spot } from "../hand.ts";
import { Dot, Ghost, Tag } from "../over.tsx";
import { far3, type Spot, type Vec3 } from "../space.ts";
import type { Figure, Tool } from "../tool.ts";

/** The places measured from one to the next; whole says that the last one has been set. */
const way = signal<readonly Spot[]>([]);
const whole = signal(false);

const length = (at: readonly Vec3[]): number =>
  at.reduce((sum, p, i) => (i === 0 ? 0 : sum + far3(at[i - 1] as Vec3, p)), 0);

function places(): Vec3[] {
  const set = way.value.map((s) => s.at);
  return spot.value && !whole.value && set.length > 0 ? [...set, spot.value.at] : set;
}

function Over() {
  const at = places();
  if (at.length === 0) return null;
  const last = at[at.length - 1] as Vec3;
  return (
    <>
      <Ghost at={at} />
      {way.value.map((s, i) => (
        <Dot key={i} at={s.at} />
      ))}
      {whole.value && <Tag at={last} words={lengthWords(length(at))} />}
    </>
  );
}

function clear(): boolean {
  const had = way.value.length > 0;
  way.value = [];
  whole.value = false;
  return had;
}

function figures(s: Spot): Figure[] {
  const at = places();
  if (at.length < 2 || whole.value) return [];
  const from = at[at.length - 2] as Vec3;
  const out: Figure[] = [{ words: words.length, figure: lengthWords(far3(from, s.at)) }];
  if (at.length > 2) out.push({ words: words.measure.all, figure: lengthWords(length(at)) });
  return out;
}

/** A tape: how far it is from place to place. Nothing is changed by it. */
export const measure: Tool = {
  id: "measure",
  words: words.measure.words,
  key: "m",
  part: "",
  hint: () =>
    whole.value ? words.measure.done : way.value.length === 0 ? words.measure.begin : words.measure.next,
  from: () => (whole.value ? null : (way.value[way.value.length - 1]?.at ?? null)),
  figures,
  set(s) {
    if (whole.value) clear();
    way.value = [...way.value, s];
  },
  finish() {
    whole.value = way.value.length > 1;
    say(lengthWords(length(way.value.map((s) => s.at))));
  },
  back() {
    way.value = way.value.slice(0, -1);
    whole.value = false;
    return true;
  },
  leave: clear,
  stop: () => void clear(),
  Over,
};
