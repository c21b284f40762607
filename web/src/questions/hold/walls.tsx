import type { ScreenWallRow } from "../../api/types.gen.ts";
import { light } from "../../state/ask.ts";
import { holdWords as words } from "../../words/hold.ts";
import { From } from "../facts/facts.tsx";

/** The line of a clip: seen from above the clips of an upright line are not drawn, and it is. */
const lineOf = (thing: string) => thing.split("/")[0] ?? thing;

function Wall({ wall }: { wall: ScreenWallRow }) {
  return (
    <details class="wall-marks">
      <summary onPointerEnter={() => light(wall.id)} onPointerLeave={() => light()}>
        {wall.name}, {wall.words}
      </summary>
      <table class="rows">
        <caption class="hidden">{wall.name}</caption>
        <thead>
          <tr>
            <th scope="col" class="number">
              {words.along}
            </th>
            <th scope="col" class="number">
              {words.up}
            </th>
            <th scope="col">{words.what}</th>
          </tr>
        </thead>
        <tbody>
          {wall.marks.map((m, i) => (
            <tr key={i} onPointerEnter={() => light(m.thing, lineOf(m.thing))} onPointerLeave={() => light()}>
              <td class="number">{m.along}</td>
              <td class="number">{m.up}</td>
              <td>{m.what}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <From origin={wall.from} of={wall.name} />
    </details>
  );
}

/** What to mark on each wall before anything is drilled, in walking order. */
export function Walls({ walls }: { walls: ScreenWallRow[] }) {
  if (walls.length === 0) return null;
  return (
    <>
      <h3>{words.marks}</h3>
      <p class="soft">{words.marksNote}</p>
      {walls.map((w) => (
        <Wall key={w.id} wall={w} />
      ))}
    </>
  );
}
