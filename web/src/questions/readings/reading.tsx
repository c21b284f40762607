import { signal, useSignal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { Refused } from "../../api/client.ts";
import type { JobOutlet } from "../../api/types.gen.ts";
import { jobId } from "../../state/address.ts";
import { chosen } from "../../state/ask.ts";
import { done } from "../../state/hints.ts";
import { outletRows, pieces, thingOf } from "../../state/live.ts";
import { myName } from "../../state/name.ts";
import { stepOnJob } from "../../state/post.ts";
import { quantity } from "../../state/unit.ts";
import { readingWords as say } from "../../words/panels.ts";

interface Pressure {
  text: string;
  pa: number | null;
  echo: string;
}

const nothing: Pressure = { text: "", pa: null, echo: "" };
const shows = signal<Pressure>(nothing);
const receiver = signal<Pressure>(nothing);

/** A pressure off a gauge, typed in any unit and told back. */
function Gauge({ label, of }: { label: string; of: typeof shows }) {
  const id = useId();
  const text = of.value.text;
  useEffect(() => {
    if (text.trim() === "") return;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      quantity("gauge pressure", text, stop.signal).then(
        (q) => {
          of.value = { text, pa: q.si, echo: q.words };
        },
        (e: unknown) => {
          if (stop.signal.aborted) return;
          of.value = { text, pa: null, echo: e instanceof Refused ? e.message : String(e) };
        },
      );
    }, 120);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [text]);
  return (
    <div class="measure">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        placeholder={say.hint}
        value={text}
        aria-describedby={`${id}-echo`}
        onInput={(e) => {
          of.value = { text: e.currentTarget.value, pa: null, echo: "" };
        }}
      />
      <span id={`${id}-echo`} class="measure-echo" aria-live="polite">
        {of.value.echo}
      </span>
    </div>
  );
}

/** To the pascal, in the file's kPa. */
const kPa = (pa: number): number => Math.round(pa) / 1000;

/** What a gauge showed at an outlet, into the job's records: the program holds it against the drawing. */
export function Reading() {
  const id = useId();
  const rows = outletRows.value;
  const at = useSignal(chosen.peek().startsWith("outlet.") ? chosen.peek() : (rows[0]?.id ?? ""));
  const still = useSignal<ReadonlySet<string>>(new Set());
  const told = useSignal(false);
  if (rows.length === 0)
    return (
      <section class="reading">
        <h2>{say.title}</h2>
        <p class="soft">{say.noOutlet}</p>
      </section>
    );
  const tools = thingOf<JobOutlet>(at.value)?.tools ?? [];
  const enter = async () => {
    const pa = shows.value.pa;
    if (pa === null) return;
    const running = tools.filter((t) => !still.value.has(t)).map((tool) => ({ tool, outlet: at.value }));
    const reading = {
      pressure_kPa_g: kPa(pa),
      ...(receiver.value.pa === null ? {} : { receiver_kPa_g: kPa(receiver.value.pa) }),
      ...(running.length > 0 ? { running } : {}),
    };
    const when = `${new Date().toISOString().slice(0, 19)}Z`;
    const thing = { when, by: myName.value, kind: "reading", about: [at.value], reading };
    const answer = await stepOnJob({ do: "put", what: "record", thing });
    if (!answer.done) return;
    shows.value = nothing;
    receiver.value = nothing;
    told.value = true;
    done(`readings ${jobId}`);
  };
  return (
    <section class="reading">
      <h2>{say.title}</h2>
      <p>{say.lead}</p>
      <form
        class="reading-form"
        onSubmit={(e) => {
          e.preventDefault();
          void enter();
        }}
      >
        <div class="measure">
          <label for={id}>{say.outlet}</label>
          <select
            id={id}
            value={at.value}
            onChange={(e) => {
              at.value = e.currentTarget.value;
              still.value = new Set();
            }}
          >
            {rows.map((o) => (
              <option key={o.id} value={o.id}>
                {[o.mark, o.name].filter(Boolean).join(", ")}
              </option>
            ))}
          </select>
        </div>
        <Gauge label={say.pressure} of={shows} />
        <Gauge label={say.receiver} of={receiver} />
        <fieldset>
          <legend class="soft">{say.running}</legend>
          {tools.length === 0 && <span>{say.nothing}</span>}
          {tools.map((t) => (
            <label key={t}>
              <input
                type="checkbox"
                checked={!still.value.has(t)}
                onChange={() => {
                  const next = new Set(still.value);
                  if (!next.delete(t)) next.add(t);
                  still.value = next;
                }}
              />
              <span>{pieces.value.get(t)?.words ?? t}</span>
            </label>
          ))}
        </fieldset>
        <button type="submit" class="go strong" disabled={shows.value.pa === null}>
          {say.add}
        </button>
        <p class="soft" role="status">
          {told.value && shows.value.text === "" ? say.added : ""}
        </p>
      </form>
    </section>
  );
}
