import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { chosen } from "../../state/ask.ts";
import { proposeWords as say } from "../../words/panels.ts";
import { asking } from "./ask.ts";
import { Proposals } from "./proposal.tsx";

/** What may be asked for. */
interface Wish {
  lines: boolean;
  sizes: boolean;
  keep: boolean;
  only: string[];
  growth: number;
}

const asked = asking<Wish>("/proposals");

const wish = signal<Wish>({ lines: false, sizes: true, keep: true, only: [], growth: 0 });

const change = (more: Partial<Wish>) => {
  wish.value = { ...wish.value, ...more };
};

function Choice({ words, on, set }: { words: string; on: boolean; set: (on: boolean) => void }) {
  return (
    <label class="propose-choice">
      <input type="checkbox" checked={on} onChange={(e) => set(e.currentTarget.checked)} />
      <span>{words}</span>
    </label>
  );
}

function Form() {
  const w = wish.value;
  const at = chosen.value;
  return (
    <form
      class="propose-form"
      onSubmit={(e) => {
        e.preventDefault();
        void asked.ask(w);
      }}
    >
      <fieldset>
        <legend>{say.what}</legend>
        <Choice words={say.lines} on={w.lines} set={(lines) => change({ lines })} />
        <Choice words={say.sizes} on={w.sizes} set={(sizes) => change({ sizes })} />
      </fieldset>
      <fieldset>
        <legend>{say.bounds}</legend>
        <Choice words={say.keep} on={w.keep} set={(keep) => change({ keep })} />
        {at !== "" && (
          <Choice words={say.only} on={w.only.length > 0} set={(on) => change({ only: on ? [at] : [] })} />
        )}
        <label class="propose-growth">
          <span>{say.growth}</span>
          <select value={`${w.growth}`} onChange={(e) => change({ growth: Number(e.currentTarget.value) })}>
            {[0, 0.2, 0.5, 1].map((g) => (
              <option key={g} value={`${g}`}>
                {say.growthOf(g)}
              </option>
            ))}
          </select>
        </label>
      </fieldset>
      <button type="submit" class="go strong" disabled={!w.lines && !w.sizes}>
        {say.ask}
      </button>
    </form>
  );
}

/** Lines and sizes that the program thinks up, to be taken, kept beside the job, or left. */
export function Propose() {
  useEffect(() => asked.cancel, []);
  return (
    <section class="propose">
      <h2>{say.title}</h2>
      <p class="soft">{say.lead}</p>
      <Form />
      <Proposals of={asked} />
    </section>
  );
}
