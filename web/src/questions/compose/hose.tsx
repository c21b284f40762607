import { catalogue } from "../../state/catalogue.ts";
import type { Draft } from "../../tools/drop/hang.ts";
import { FigureField } from "../../tools/figure.tsx";
import { Choice } from "../../tools/line/options.tsx";
import { lineWords } from "../../words/lines.ts";
import type { Change } from "./compose.tsx";

const words = lineWords.compose;

type Hosed = NonNullable<Draft["hose"]>;

/** A field that is "" is left out of the file. */
function without(hose: Hosed, key: "plug" | "socket", value: string): Hosed {
  const { [key]: _, ...rest } = hose;
  return value === "" ? rest : { ...rest, [key]: value };
}

/** The hose: which, how long, on a reel, with what plug at the wall and what socket at the tool. */
export function Hose({ now, change }: { now: Draft; change: Change }) {
  const c = catalogue.value;
  const { hose } = now;
  const coupler = now.hang.find((p) => p.kind === "coupler")?.item ?? "";
  const hoses = (c?.hoses ?? []).map((h): [string, string] => [h.id, h.words]);
  const plugs = (c?.couplers ?? [])
    .filter((k) => !k.socket_only)
    .map((k): [string, string] => [k.id, k.words]);
  const sockets = (c?.couplers ?? []).map((k): [string, string] => [k.id, k.words]);
  const set = (more: Partial<Hosed>) => hose && change({ hose: { ...hose, ...more } });
  const toggle = (on: boolean) => {
    const item = hoses[1]?.[0] ?? hoses[0]?.[0] ?? "";
    const ends = coupler === "" ? {} : { plug: coupler, socket: coupler };
    change({ hose: on ? { item, length_m: 7.5, ...ends } : null });
  };
  return (
    <fieldset class="compose-part">
      <legend>
        <label class="tick">
          <input type="checkbox" checked={hose !== null} onChange={(e) => toggle(e.currentTarget.checked)} />
          {words.hose}
        </label>
      </legend>
      {hose && (
        <>
          <Choice label={words.hose} value={hose.item} rows={hoses} change={(item) => set({ item })} />
          <FigureField
            label={words.length}
            kind="length"
            si={hose.length_m}
            change={(length_m) => set({ length_m })}
          />
          <label class="tick">
            <input
              type="checkbox"
              checked={hose.reel ?? false}
              onChange={(e) => {
                const { reel: _, ...rest } = hose;
                change({ hose: e.currentTarget.checked ? { ...rest, reel: true } : rest });
              }}
            />
            {words.reel}
          </label>
          <Choice
            label={words.plug}
            value={hose.plug ?? ""}
            rows={[["", words.noPlug], ...plugs]}
            change={(id) => change({ hose: without(hose, "plug", id) })}
          />
          <Choice
            label={words.socket}
            value={hose.socket ?? ""}
            rows={[["", words.noPlug], ...sockets]}
            change={(id) => change({ hose: without(hose, "socket", id) })}
          />
        </>
      )}
    </fieldset>
  );
}
