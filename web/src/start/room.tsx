import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import { type DoorAnswer, lengthOf, outlineOf, type RoomLength, sidesOf, usual } from "./answers.ts";
import { change, draft, offer } from "./draft.ts";
import { Along, Measure } from "./measure.tsx";
import type { Corner, OnWall } from "./outline.ts";
import { Choice, Pick } from "./pick.tsx";

/** A length of the room; the first field takes the focus when its question opens. */
function Length({ name, label }: { name: RoomLength; label: string }) {
  const d = draft.value;
  return (
    <Measure
      label={label}
      kind="length"
      figure={d[name]}
      usual={lengthIn(d.units, usual(d, name))}
      changed={(f) => change({ [name]: f })}
    />
  );
}

export function addDoor(at: OnWall | null): void {
  const d = draft.value;
  const wide = offer.value?.doors.find((k) => k.word === "door")?.width_m ?? 0.9;
  const side = sidesOf(d).find((s) => s.wall === at?.wall);
  const key = Math.max(0, ...d.doors.map((x) => x.key)) + 1;
  const door: DoorAnswer =
    at && side
      ? {
          key,
          wall: at.wall,
          kind: "door",
          along: Math.min(Math.max(at.along - wide / 2, 0), Math.max(side.long - wide, 0)),
        }
      : { key, wall: "south", kind: "door", along: null };
  change({ doors: [...d.doors, door] });
}

function Door({ door }: { door: DoorAnswer }) {
  const d = draft.value;
  const put = (more: Partial<DoorAnswer>) =>
    change({ doors: d.doors.map((x) => (x.key === door.key ? { ...x, ...more } : x)) });
  return (
    <li class="five-row">
      <Pick
        label={say.kind}
        value={door.kind}
        rows={(offer.value?.doors ?? []).map((k) => [k.word, k.words])}
        took={(kind) => put({ kind })}
      />
      <Pick
        label={say.wall}
        value={door.wall}
        rows={sidesOf(d).map((s) => [s.wall, s.wall])}
        took={(wall) => put({ wall, along: null })}
      />
      <Along along={door.along} hint={say.middle} changed={(along) => put({ along })} />
      <button
        type="button"
        class="linkish"
        onClick={() => change({ doors: d.doors.filter((x) => x.key !== door.key) })}
      >
        {say.remove}
      </button>
    </li>
  );
}

/** The first question: shape and size, and where one goes in. */
export function Room() {
  const d = draft.value;
  const corners: Corner[] = ["ne", "nw", "sw", "se"];
  const lengths: RoomLength[] = ["width", "depth", "notchWidth", "notchDepth"];
  const noRoom = d.shape === "ell" && !outlineOf(d) && lengths.every((k) => lengthOf(d, k) !== null);
  return (
    <>
      <div class="five-fields">
        <Length name="width" label={say.width} />
        <Length name="depth" label={say.depth} />
        <Length name="height" label={say.height} />
      </div>
      <Choice
        legend={say.shape}
        name="shape"
        value={d.shape}
        rows={[
          ["four", say.four],
          ["ell", say.ell],
        ]}
        took={(shape) => change({ shape, doors: d.doors.filter((x) => !x.wall.includes("-")) })}
      />
      {d.shape === "ell" && (
        <div class="five-fields">
          <Pick
            label={say.missing}
            value={d.corner}
            rows={corners.map((c) => [c, say.corners[c]])}
            took={(corner) => change({ corner })}
          />
          <Length name="notchWidth" label={say.notchWidth} />
          <Length name="notchDepth" label={say.notchDepth} />
        </div>
      )}
      {noRoom && <p class="measure-echo bad">{say.noRoom}</p>}
      <p class="soft five-note">{say.oneRoom}</p>
      <h3>{say.doors}</h3>
      <ul class="five-rows">
        {d.doors.map((door) => (
          <Door key={door.key} door={door} />
        ))}
      </ul>
      <p class="five-add">
        <button type="button" class="linkish" onClick={() => addDoor(null)}>
          {say.addDoor}
        </button>
        <span class="soft">{say.doorHint}</span>
      </p>
      <div class="five-fields">
        <Pick
          label={say.madeOf}
          value={d.madeOf}
          rows={[["", say.madeOfAny], ...(offer.value?.walls ?? []).map((w) => [w.word, w.words] as const)]}
          took={(madeOf) => change({ madeOf })}
        />
        <Pick
          label={say.climate}
          value={d.climate}
          rows={(offer.value?.climates ?? []).map((c) => [c.word, c.words])}
          took={(climate) => change({ climate })}
        />
        {d.climate !== "heated" && (
          <Measure
            label={say.cold}
            kind="temperature"
            figure={d.cold}
            hint={d.units === "us" ? "14 °F" : "-10 °C"}
            changed={(cold) => change({ cold })}
          />
        )}
      </div>
    </>
  );
}
