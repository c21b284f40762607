import { signal } from "@preact/signals";
import type { JobRoom, JobZone } from "../../api/types.gen.ts";
import { step } from "../../state/post.ts";
import { removeZone, set } from "../../tools/building/change.ts";
import { WordField } from "../../tools/building/entry.tsx";
import { all } from "../../tools/building/kit.ts";
import { Choice } from "../../tools/line/options.tsx";
import { buildingWords } from "../../words/building.ts";
import { Figure, Words } from "./fields.tsx";

const words = buildingWords.panel;
const kelvin = 273.15;
const climates = Object.entries(buildingWords.climates);

const hundredth = (v: number): number => Math.round(v * 100) / 100;

function Temperature({ zone, of }: { zone: JobZone; of: "winter" | "summer" }) {
  const c = zone[`${of}_C`];
  return (
    <Figure
      label={buildingWords.room[of]}
      kind="temperature"
      si={c === undefined ? null : c + kelvin}
      keep={(k) => void set(zone.id, `${of}_C`, k === null ? null : hundredth(k - kelvin))}
    />
  );
}

function Zone({ zone, called }: { zone: JobZone; called: string }) {
  const rooms = all<JobRoom>("room").filter((r) => r.thing.zone === zone.id);
  return (
    <li class="zone">
      <div class="building-fields">
        <Words
          label={buildingWords.name}
          text={zone.name ?? ""}
          keep={(v) => void set(zone.id, "name", v || null)}
        />
        <Choice
          label={buildingWords.room.climate}
          value={zone.climate}
          rows={climates}
          change={(v) => void set(zone.id, "climate", v)}
        />
        <Temperature zone={zone} of="winter" />
        <Temperature zone={zone} of="summer" />
      </div>
      <p class="zone-rooms soft">
        <span>{rooms.length === 0 ? words.empty : rooms.map((r) => r.words).join(", ")}</span>
        <button
          type="button"
          class="plain"
          aria-label={words.removeZone(called)}
          onClick={() => void removeZone(zone.id)}
        >
          {words.remove}
        </button>
      </p>
    </li>
  );
}

const name = signal("");
const climate = signal("heated");

function NewZone() {
  return (
    <form
      class="building-fields new-zone"
      aria-label={words.newZone}
      onSubmit={(e) => {
        e.preventDefault();
        const called = name.value.trim() || buildingWords.climates[climate.value] || "";
        void step({ do: "zone", name: called, climate: climate.value }).then((o) => {
          if (o.done) name.value = "";
        });
      }}
    >
      <WordField label={buildingWords.name} of={name} hint={words.newZone} />
      <Choice
        label={buildingWords.room.climate}
        value={climate.value}
        rows={climates}
        change={(v) => {
          climate.value = v;
        }}
      />
      <button type="submit" class="act">
        {words.addZone}
      </button>
    </form>
  );
}

/** Zones with their climates, how cold and how warm they get, and the rooms in them. */
export function Zones() {
  const zones = all<JobZone>("zone");
  return (
    <section aria-label={words.zones}>
      <h3>{words.zones}</h3>
      {zones.length === 0 && <p class="soft">{words.noZones}</p>}
      <ul class="zones">
        {zones.map((z) => (
          <Zone key={z.id} zone={z.thing} called={z.words} />
        ))}
      </ul>
      <NewZone />
    </section>
  );
}
