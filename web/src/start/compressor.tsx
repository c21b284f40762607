import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import type { Draft } from "./answers.ts";
import { change, draft, offer } from "./draft.ts";
import { Measure } from "./measure.tsx";
import { Sentences } from "./pick.tsx";

function Machines() {
  const d = draft.value;
  return (
    <ul class="five-machines">
      {(offer.value?.machines ?? []).map((m) => (
        <li key={m.item}>
          <label>
            <input
              type="radio"
              name="machine"
              checked={d.machine === m.item}
              onChange={() => change({ machine: m.item })}
            />
            <span>
              <strong>{m.words}</strong>
              <span class="soft">{m.figures}</span>
            </span>
          </label>
        </li>
      ))}
    </ul>
  );
}

const plate = [
  ["free", say.free, "flow of free air", "450 L/min, 18 cfm"],
  ["at", say.at, "gauge pressure", "7 bar, 90 psi"],
  ["cutIn", say.cutIn, "gauge pressure", "7 bar"],
  ["cutOut", say.cutOut, "gauge pressure", "9 bar"],
  ["power", say.power, "power", "4 kW, 5.5 hp"],
  ["receiver", say.receiver, "volume", "270 L, 60 gal"],
] as const;

function Plate() {
  const d = draft.value;
  return (
    <div class="five-fields">
      {plate.map(([key, label, kind, hint]) => (
        <Measure
          key={key}
          label={label}
          kind={kind}
          figure={d[key]}
          hint={hint}
          changed={(f) => change({ [key]: f })}
        />
      ))}
    </div>
  );
}

/** The second question. Nothing bought yet is an answer too. */
export function Compressor() {
  const d = draft.value;
  return (
    <>
      <Sentences<Draft["source"]>
        legend={say.q2}
        name="source"
        value={d.source}
        took={(source) => change({ source, machine: d.machine || (offer.value?.machines[3]?.item ?? "") })}
        rows={[
          { word: "unknown", words: say.unknown },
          { word: "listed", words: say.listed, under: <Machines /> },
          { word: "plate", words: say.plate, under: <Plate /> },
        ]}
      />
      <p class="five-add">
        {say.stand}: {d.stand ? say.standAt(d.stand.wall, lengthIn(d.units, d.stand.along)) : say.standAny}.{" "}
        {d.stand ? (
          <button type="button" class="linkish" onClick={() => change({ stand: null })}>
            {say.standAny}
          </button>
        ) : (
          <span class="soft">{say.standHint}</span>
        )}
      </p>
      <p class="five-care">{say.electric}</p>
    </>
  );
}
