import type { ScreenRoomRow } from "../../api/types.gen.ts";
import { buyWords as words } from "../../words/buy.ts";

/** How much of it is in which room. */
export function Rooms({ rows }: { rows: ScreenRoomRow[] }) {
  return (
    <details class="by-room">
      <summary>{words.rooms}</summary>
      <table class="rows">
        <caption class="hidden">{words.rooms}</caption>
        <thead>
          <tr>
            <th scope="col">{words.room}</th>
            {words.roomHeads.map((h) => (
              <th key={h} scope="col" class="number">
                {h}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.room + r.state}>
              <th scope="row">
                {r.room}, {r.state}
              </th>
              <td class="number">{r.line}</td>
              <td class="number">{r.pieces}</td>
              <td class="number">{r.parts}</td>
              <td class="number">{r.joints}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
