import { signal } from "@preact/signals";
import type { ScreenFinding } from "../../api/types.gen.ts";
import { chosen, light, lit } from "../../state/ask.ts";
import { words } from "../../words/words.ts";
import { From } from "../facts/facts.tsx";
import { Cured, Cures } from "./cures.tsx";

const sign: Record<string, string> = { danger: "⬣", fault: "◆", caution: "▲", note: "●" };

function Finding({ finding }: { finding: ScreenFinding }) {
  const ids = finding.where.map((w) => w.id);
  const shown = ids.some((id) => lit.value.has(id));
  return (
    <li
      class={`finding ${finding.severity}${shown ? " lit" : ""}`}
      onPointerEnter={() => light(...ids)}
      onPointerLeave={() => light()}
      onFocusIn={() => light(...ids)}
      onFocusOut={() => light()}
    >
      <p class="severity">
        <span aria-hidden="true">{sign[finding.severity] ?? "●"}</span> {finding.severity_words}
      </p>
      <h3>{finding.title}</h3>
      <p>{finding.why}</p>
      {finding.where.length > 0 && (
        <p class="where">
          {finding.where.map((w) => (
            <button
              type="button"
              key={w.id}
              class="thing-link"
              onClick={() => {
                chosen.value = w.id;
              }}
            >
              {w.words}
            </button>
          ))}
        </p>
      )}
      <Cures finding={finding} />
      {finding.shares.length > 0 && (
        <ul class="shares">
          {finding.shares.map((s) => (
            <li key={s.words}>
              <span>{s.words}</span>
              <span>{s.figure}</span>
              {s.from && <From origin={s.from} of={s.words} />}
            </li>
          ))}
        </ul>
      )}
      <From origin={finding.origin} of={finding.title} />
    </li>
  );
}

/** Which findings are listed: those that bear on what is shown, or all. */
const every = signal(false);

/** Findings, worst first. */
export function Findings({
  bearing,
  all,
  on,
}: {
  bearing: ScreenFinding[];
  all: ScreenFinding[];
  on: string;
}) {
  const shown = every.value ? all : bearing;
  const choice = (value: boolean, text: string) => (
    <label>
      <input
        type="radio"
        name="findings"
        checked={every.value === value}
        onChange={() => {
          every.value = value;
        }}
      />
      <span>{text}</span>
    </label>
  );
  return (
    <section aria-label={words.findings}>
      <div class="section">
        <h2>{words.findings}</h2>
        <fieldset class="segments">
          <legend class="hidden">{words.findings}</legend>
          {choice(false, `${bearing.length} ${on}`)}
          {choice(true, `all ${all.length}`)}
        </fieldset>
      </div>
      <Cured />
      {shown.length === 0 ? (
        <p class="soft">{words.noFindings}</p>
      ) : (
        <ul class="findings">
          {shown.map((f) => (
            <Finding key={f.key} finding={f} />
          ))}
        </ul>
      )}
    </section>
  );
}
