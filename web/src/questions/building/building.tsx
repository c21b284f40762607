import type { JobObstacle, JobRoom } from "../../api/types.gen.ts";
import { choose, chosen, light } from "../../state/ask.ts";
import { lengthWords } from "../../state/unit.ts";
import { raiseRoom } from "../../tools/building/change.ts";
import { all } from "../../tools/building/kit.ts";
import { take } from "../../tools/tool.ts";
import { buildingWords } from "../../words/building.ts";
import { Back } from "../back.tsx";
import { Figure } from "./fields.tsx";
import { ZoneChoice } from "./zonechoice.tsx";
import { Zones } from "./zones.tsx";

const words = buildingWords.panel;

/** A thing of the building in a list: chosen here it is chosen on the drawing. */
function Row({ id, called, facts }: { id: string; called: string; facts: string }) {
  return (
    <button
      type="button"
      class="building-row"
      aria-pressed={chosen.value === id}
      onClick={() => {
        take("select");
        choose(id);
      }}
      onPointerEnter={() => light(id)}
      onPointerLeave={() => light()}
    >
      {called} <span class="soft">{facts}</span>
    </button>
  );
}

function sizeOf(outline: readonly (readonly [number, number])[]): string {
  const size = ([0, 1] as const).map((i) => {
    const all = outline.map((p) => p[i]);
    return lengthWords(Math.max(...all) - Math.min(...all));
  });
  return size.join(" × ");
}

function Rooms() {
  const rooms = all<JobRoom>("room");
  return (
    <section aria-label={words.rooms}>
      <h3>{words.rooms}</h3>
      {rooms.length === 0 && <p class="soft">{words.roomless}</p>}
      <ul class="building-list">
        {rooms.map((r) => (
          <li key={r.id}>
            <Row id={r.id} called={r.words} facts={sizeOf(r.thing.outline_m)} />
            <Figure
              label={buildingWords.height}
              si={r.thing.ceiling_m - r.thing.floor_m}
              keep={(v) => void (v && raiseRoom(r.thing, v))}
            />
            <ZoneChoice id={r.id} room={r.thing} label={words.zone} />
          </li>
        ))}
      </ul>
      <button
        type="button"
        class="act"
        onClick={() => {
          take("room");
          document.querySelector<HTMLElement>(".tool-form input")?.focus();
        }}
      >
        {words.drawRoom}
      </button>
    </section>
  );
}

interface Length {
  from_m: [number, number];
  to_m: [number, number];
}

function Things() {
  const walls = all<Length>("wall").map((w) => {
    const { from_m: a, to_m: b } = w.thing;
    return { ...w, facts: lengthWords(Math.hypot(b[0] - a[0], b[1] - a[1])) };
  });
  const openings = all<{ width_m: number }>("opening").map((o) => ({
    ...o,
    facts: lengthWords(o.thing.width_m),
  }));
  const obstacles = all<JobObstacle>("obstacle").map((o) => ({ ...o, facts: sizeOf(o.thing.outline_m) }));
  const lists = [
    [words.walls, walls],
    [words.openings, openings],
    [words.obstacles, obstacles],
  ] as const;
  return (
    <>
      {lists
        .filter(([, rows]) => rows.length > 0)
        .map(([title, rows]) => (
          <section key={title} aria-label={title}>
            <h3>{title}</h3>
            <ul class="building-list">
              {rows.map((r) => (
                <li key={r.id}>
                  <Row id={r.id} called={r.words} facts={r.facts} />
                </li>
              ))}
            </ul>
          </section>
        ))}
    </>
  );
}

/** The shop itself: zones and their temperatures, rooms, walls, openings, obstacles. */
export function Building() {
  return (
    <section class="building">
      <Back />
      <h2>{words.title}</h2>
      <Zones />
      <Rooms />
      <Things />
    </section>
  );
}
