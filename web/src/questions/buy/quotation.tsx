import { useEffect, useId, useRef } from "preact/hooks";
import type { Quote, ScreenQuoteLine } from "../../api/types.gen.ts";
import { jobPath, query } from "../../state/address.ts";
import { against, panel } from "../../state/ask.ts";
import { inUnits, quotation } from "../../state/data.ts";
import { step } from "../../state/post.ts";
import { quoteWords as words } from "../../words/quote.ts";
import { From } from "../facts/facts.tsx";
import { asked, stamp } from "../sheets/choice.ts";
import { Since } from "./since.tsx";
import { Differences, Sums } from "./sums.tsx";

/** The time that one of a kind takes: Enter states it, emptied it is the usual one again. */
function Minutes({ line }: { line: ScreenQuoteLine }) {
  // Enter sends it, and leaving the field before the answer comes does not send it again.
  const sent = useRef<string | null>(null);
  useEffect(() => {
    sent.current = null;
  }, [line]);
  const put = (field: HTMLInputElement) => {
    const text = field.value.trim().replace(",", ".");
    if (text === (sent.current ?? line.minutes)) return;
    const minutes = Number(text);
    if (text !== "" && !(minutes >= 0)) {
      field.setCustomValidity(words.noMinutes);
      field.reportValidity();
      return;
    }
    sent.current = text;
    void step({ do: "labour", for: line.for, ...(text === "" ? {} : { min: minutes }) }).then((o) => {
      if (o.done) return;
      sent.current = null;
      field.value = line.minutes;
    });
  };
  return (
    <form
      class="minutes"
      onSubmit={(e) => {
        e.preventDefault();
        const field = e.currentTarget.elements.namedItem("min");
        if (field instanceof HTMLInputElement) put(field);
      }}
    >
      <label>
        <input
          name="min"
          inputMode="decimal"
          autocomplete="off"
          value={line.minutes}
          aria-label={words.eachOf(line.words)}
          onInput={(e) => e.currentTarget.setCustomValidity("")}
          onBlur={(e) => put(e.currentTarget)}
        />
        <span aria-hidden="true">
          {line.for === "metre" ? words.metre : words.each}
          {line.usual && " *"}
        </span>
      </label>
    </form>
  );
}

function Work({ lines }: { lines: ScreenQuoteLine[] }) {
  return (
    <table class="parts">
      <caption class="hidden">{words.work}</caption>
      <thead>
        <tr>
          <th scope="col">{words.work}</th>
          <th scope="col" class="number">
            {words.hours}
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map((l) => (
          <tr key={l.for}>
            <th scope="row">
              {l.words}: {l.number}
              <Minutes line={l} />
            </th>
            <td class="number">
              {l.hours} {words.hour}
              {l.cost !== "" && <span class="soft money">{l.cost}</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Taken({ of }: { of: Quote }) {
  const id = useId();
  const sheet = of.change ? "variation" : "quotation";
  return (
    <>
      <p class="sheet-field">
        <label for={id}>{words.firm}</label>
        <input
          id={id}
          type="text"
          maxLength={60}
          autocomplete="organization"
          defaultValue={stamp.value.by}
          onChange={(e) => {
            stamp.value = { ...stamp.value, by: e.currentTarget.value };
          }}
        />
      </p>
      <p class="take">
        <span>{words.take}</span>
        {words.files.map(([file, name]) => (
          <a key={file} href={jobPath(`/lists/${file}${query(...inUnits())}`)} download>
            {name}
          </a>
        ))}
        <a target="_blank" rel="noreferrer" href={jobPath(`/book/${sheet}.pdf${asked(["show", "yes"])}`)}>
          {of.change ? words.printChange : words.print}
        </a>
      </p>
    </>
  );
}

/** What it costs to have it done, and what a change comes to. */
export function Quotation() {
  // Opened by an address that asks for a variation; after that by hand.
  const open = useRef(against.value !== "");
  const answer = quotation.value.value;
  if (!answer) return <p class="soft">{quotation.fault.value || words.wait}</p>;
  return (
    <details class="quotation" open={open.current}>
      <summary>
        <h3>{words.title}</h3>
        <span>{answer.sentence}</span>
      </summary>
      {quotation.fault.value !== "" && <p class="trouble">{quotation.fault.value}</p>}
      <Work lines={answer.lines} />
      <Sums money={answer.money} rows={answer.sums} />
      <From origin={answer.from} of={words.title} />
      {answer.notes.map((n) => (
        <p key={n} class="soft">
          {n}
        </p>
      ))}
      <p>
        <button
          type="button"
          class="plain"
          onClick={() => {
            panel.value = "job";
          }}
        >
          {words.rates}
        </button>
      </p>
      <Since />
      {answer.change && <Differences of={answer.change} />}
      <Taken of={answer} />
    </details>
  );
}
