import { choose, panel } from "../../state/ask.ts";
import { kindRow } from "../../state/catalogue.ts";
import { pieces } from "../../state/live.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { lengthWords } from "../../state/unit.ts";
import { lineWords } from "../../words/lines.ts";
import { FigureField, figuresRead } from "../figure.tsx";
import { height, spot, standoff } from "../hand.ts";
import { kit, openKit } from "../line/kit.ts";
import { floorAt } from "../line/levels.ts";
import { Choice } from "../line/options.tsx";
import { Dot, Tag } from "../over.tsx";
import { anchorOf, placeOf } from "../place.ts";
import { everything } from "../snap.ts";
import type { Spot } from "../space.ts";
import type { Tool } from "../tool.ts";
import { kindInHand, stated, ware } from "./draft.ts";
import { lacking, passes, plantGesture } from "./shelf.ts";

const words = lineWords.plant;

let before = 0;

/** Whether the thing in the hand would be set into a line at a spot. */
function goesInto(s: Spot): boolean {
  const kind = kindInHand();
  return kind !== undefined && passes(kind) && (s.snap?.kind === "run" || s.snap?.kind === "point");
}

function set(s: Spot): void {
  void figuresRead().then((read) => {
    if (read) place(s);
    else trouble.value = { kind: "refused", words: words.unread, lines: [] };
  });
}

function place(s: Spot): void {
  const kind = kindInHand();
  const w = ware.value;
  if (!kind || !w) {
    trouble.value = { kind: "refused", words: words.choose, lines: [] };
    return;
  }
  const lacks = lacking(kind, stated.value);
  if (lacks.length > 0) {
    const names = lacks.map((k) => (k === "volume_L" ? words.volume : words.set).toLowerCase());
    trouble.value = { kind: "refused", words: words.lacking + names.join(", "), lines: [] };
    return;
  }
  const where = goesInto(s) ? { into: anchorOf(s) } : { at: placeOf(s) };
  void step(plantGesture(kind, w.item, stated.value, kit.value.state, where)).then((o) => {
    if (!o.done) return;
    stated.value = { ...stated.value, name: "" };
    const [made = ""] = o.made;
    if (made !== "") choose(made);
  });
}

function Over() {
  const s = spot.value;
  const w = ware.value;
  if (!s || !w) return null;
  const what = kindRow(w.kind)?.words ?? w.words;
  return (
    <>
      <Dot at={s.at} />
      <Tag at={s.at} words={goesInto(s) ? `${what}, ${words.into}` : what} />
    </>
  );
}

/** What is to be known where plant is placed. */
function Cautions({ roles }: { roles: readonly string[] }) {
  const lines = [
    roles.includes("supplies") ? words.electrician : "",
    roles.includes("stores") ? words.relief : "",
    roles.includes("relieves") ? words.reliefSet : "",
  ].filter((l) => l !== "");
  return (
    <>
      {lines.map((l) => (
        <p key={l} class="tool-caution">
          {l}
        </p>
      ))}
    </>
  );
}

function Options() {
  const kind = kindInHand();
  const now = stated.value;
  const change = (more: Partial<typeof now>) => {
    stated.value = { ...stated.value, ...more };
  };
  return (
    <>
      <button
        type="button"
        class="pick-button"
        onClick={() => {
          panel.value = "plant";
        }}
      >
        {ware.value?.words ?? words.change}
      </button>
      {kind && (
        <label class="select">
          <span>{words.name}</span>
          <input
            class="short-field"
            value={now.name}
            placeholder={kind.words}
            onInput={(e) => change({ name: e.currentTarget.value })}
          />
        </label>
      )}
      {kind?.needs.includes("volume_L") && (
        <FigureField
          label={words.volume}
          kind="volume"
          si={now.volume_L / 1000}
          change={(m3) => change({ volume_L: m3 * 1000 })}
        />
      )}
      {kind?.needs.includes("set_kPa_g") && (
        <FigureField
          label={words.set}
          kind="gauge pressure"
          si={now.set_kPa_g * 1000}
          change={(pa) => change({ set_kPa_g: pa / 1000 })}
        />
      )}
      <Choice
        label={lineWords.state}
        value={kit.value.state}
        rows={Object.entries(lineWords.states)}
        change={(state) => {
          kit.value = { ...kit.value, state };
        }}
      />
      {kind && <Cautions roles={kind.roles} />}
    </>
  );
}

/** Plant is chosen from the catalogue and placed; on a line it is set in. */
export const plant: Tool = {
  id: "plant",
  words: words.words,
  key: "p",
  part: "plant",
  hint: () => {
    const kind = kindInHand();
    return kind ? words.place(kind.words) : words.choose;
  },
  reach: () => ({ kinds: everything, standoff: kindInHand()?.fixes_to === "wall" ? standoff.value : 0.4 }),
  figures: (s) => {
    const over = s.at[2] - floorAt(pieces.value, s.at);
    // Over a floor at nought it is the height that stands at the pointer anyway.
    return ware.value && over !== s.at[2] ? [{ words: words.openings, figure: lengthWords(over) }] : [];
  },
  start() {
    openKit();
    before = height.value;
    panel.value = "plant";
    const kind = kindInHand();
    if (kind) height.value = kind.fixes_to === "floor" ? 0.9 : 1.45;
  },
  stop() {
    height.value = before;
    if (panel.value === "plant") panel.value = "";
  },
  set,
  back: () => false,
  leave() {
    const had = ware.value !== null;
    ware.value = null;
    return had;
  },
  Over,
  Options,
};
