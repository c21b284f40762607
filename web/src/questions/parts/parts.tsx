import type { ScreenPartRow } from "../../api/types.gen.ts";
import { light } from "../../state/ask.ts";
import { From } from "../facts/facts.tsx";

/** The take-off, shelf by shelf. */
export function Parts({ rows, note }: { rows: ScreenPartRow[]; note: string }) {
  return (
    <>
      <table class="parts">
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col" class="number">
              How many
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.words} onPointerEnter={() => light(...r.things)} onPointerLeave={() => light()}>
              <td>
                {r.words}
                <From origin={r.from} of={r.words} />
              </td>
              <td class="number">{r.number}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="soft">{note}</p>
    </>
  );
}
