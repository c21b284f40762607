import { signal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import type { ExtendWish, JobTool, JobWall } from "../../api/types.gen.ts";
import { Field } from "../../paint/field.tsx";
import { catalogue, wantCatalogue } from "../../state/catalogue.ts";
import { pieces } from "../../state/live.ts";
import { quantity } from "../../state/unit.ts";
import { extendWords as say } from "../../words/panels.ts";
import { asking } from "../propose/ask.ts";
import { Proposals } from "../propose/proposal.tsx";

const asked = asking<ExtendWish>("/extensions");

const what = signal<"outlet" | "machine">("outlet");
const wall = signal("");
const along = signal("");
const up = signal("");
const name = signal("");
const tool = signal("");
const machine = signal("");

/** From the wall's face: what clips and drop elbows take, m. */
const off = 0.06;

const all = <T,>(word: string): { id: string; thing: T }[] =>
  [...pieces.value.values()]
    .filter((p) => p.id.startsWith(`${word}.`))
    .map((p) => ({ id: p.id, thing: p.thing as T }));

interface Option {
  id: string;
  words: string;
}

function Choice(props: { label: string; of: typeof tool; none: string; groups: [string, Option[]][] }) {
  const id = useId();
  return (
    <div class="measure">
      <label for={id}>{props.label}</label>
      <select
        id={id}
        value={props.of.value}
        onChange={(e) => {
          props.of.value = e.currentTarget.value;
        }}
      >
        <option value="">{props.none}</option>
        {props.groups.map(([group, options]) => (
          <optgroup key={group} label={group}>
            {options.map((o) => (
              <option key={o.id} value={o.id}>
                {o.words}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </div>
  );
}

function Outlet() {
  const walls = all<JobWall>("wall").map((w) => ({ id: w.id, words: w.thing.name || w.id }));
  const mine = all<JobTool>("tool").map((t) => ({ id: t.id, words: t.thing.name || t.id }));
  const rows = (catalogue.value?.tools ?? []).map((t) => ({ id: t.id, words: t.words }));
  return (
    <>
      <Choice label={say.wall} of={wall} none={say.choose} groups={[[say.walls, walls]]} />
      <Field label={say.along} of={along} hint={say.lengthHint} mode="text" />
      <Field label={say.up} of={up} hint={say.upHint} mode="text" />
      <Choice
        label={say.tool}
        of={tool}
        none={say.later}
        groups={[
          [say.ofShop, mine],
          [say.ofCatalogue, rows],
        ]}
      />
      <Field label={say.name} of={name} hint={say.nameHint} mode="text" />
    </>
  );
}

/** The wish as it is typed; a length that cannot be read is told. */
async function ask(): Promise<void> {
  if (what.value === "machine") {
    await asked.ask({ machine: machine.value });
    return;
  }
  try {
    const [a, u] = await Promise.all([quantity("length", along.value), quantity("length", up.value)]);
    await asked.ask({
      at: { wall: wall.value, along_m: a.si, up_m: u.si, off_m: off },
      ...(tool.value === "" ? {} : { tool: tool.value }),
      ...(name.value.trim() === "" ? {} : { name: name.value.trim() }),
    });
  } catch (e) {
    asked.fail(e);
  }
}

function Form() {
  const ready =
    what.value === "machine"
      ? machine.value !== ""
      : wall.value !== "" && along.value.trim() !== "" && up.value.trim() !== "";
  const machines = (catalogue.value?.machines ?? []).map((m) => ({ id: m.id, words: m.words }));
  return (
    <form
      class="propose-form"
      onSubmit={(e) => {
        e.preventDefault();
        void ask();
      }}
    >
      <fieldset>
        <legend>{say.what}</legend>
        {(["outlet", "machine"] as const).map((w) => (
          <label key={w} class="propose-choice">
            <input
              type="radio"
              name="extend-what"
              checked={what.value === w}
              onChange={() => {
                what.value = w;
              }}
            />
            <span>{say.sorts[w]}</span>
          </label>
        ))}
      </fieldset>
      {what.value === "outlet" ? (
        <Outlet />
      ) : (
        <Choice label={say.machine} of={machine} none={say.choose} groups={[[say.ofCatalogue, machines]]} />
      )}
      <button type="submit" class="go strong" disabled={!ready || asked.under.value !== null}>
        {say.ask}
      </button>
    </form>
  );
}

/** May I add this: what comes with an outlet or a compressor on lines that stand. */
export function Extend() {
  useEffect(wantCatalogue, []);
  useEffect(() => asked.cancel, []);
  return (
    <section class="propose">
      <h2>{say.title}</h2>
      <p class="soft">{say.lead}</p>
      <p class="safe">{say.caution}</p>
      <Form />
      <Proposals of={asked} />
    </section>
  );
}
