import { signal } from "@preact/signals";
import type { ScreenCure, ScreenFinding } from "../../api/types.gen.ts";
import { findings } from "../../state/data.ts";
import { shown } from "../../state/live.ts";
import { step, undo } from "../../state/post.ts";
import { inspectWords } from "../../words/inspect.ts";
import { words } from "../../words/words.ts";
import { leftOf, type Tried } from "./left.ts";

/** The cure made last, and what it was for. */
const tried = signal<Tried | null>(null);
/** A cure on its way. */
const trying = signal("");

async function apply(finding: ScreenFinding, cure: ScreenCure) {
  if (!cure.edit || trying.value !== "") return;
  trying.value = cure.words;
  const outcome = await step(cure.edit);
  trying.value = "";
  tried.value = {
    words: cure.words,
    why: outcome.done ? "" : outcome.why,
    code: finding.code,
    where: finding.where.map((w) => w.id),
    revision: shown.value,
  };
}

/** What the cure made last has left of its finding; the step can be taken back right here. */
export function Cured() {
  const made = tried.value;
  const now = findings.value.value;
  if (!made) return null;
  const left = now && now.revision >= made.revision ? leftOf(made, now.findings) : null;
  return (
    <div class="cured" role="status">
      <p>
        <strong>{made.why === "" ? inspectWords.applied : inspectWords.notApplied}</strong> {made.words}
        {made.why !== "" && `: ${made.why}`}
      </p>
      {made.why === "" && left !== null && (
        <p>{left === "" ? inspectWords.gone : `${inspectWords.left} ${left}`}</p>
      )}
      <p class="cured-row">
        {made.why === "" && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              tried.value = null;
              void undo();
            }}
          >
            {words.undo}
          </button>
        )}
        <button
          type="button"
          class="plain"
          onClick={() => {
            tried.value = null;
          }}
        >
          {words.close}
        </button>
      </p>
    </div>
  );
}

/** What helps against a finding, each made by one button. */
export function Cures({ finding }: { finding: ScreenFinding }) {
  if (finding.cures.length === 0) return null;
  return (
    <div class="cures">
      <h4>{words.cures}</h4>
      <ul>
        {finding.cures.map((c) => (
          <li key={c.words}>
            <strong>{c.words}</strong>
            <span class="soft">
              {[c.gain, c.price, c.cures ? words.curesAlone : "", c.verified ? words.tested : words.untested]
                .filter(Boolean)
                .join(" · ")}
            </span>
            {c.edit && (
              <button
                type="button"
                class="do"
                aria-label={`${inspectWords.apply}: ${c.words}`}
                disabled={trying.value !== ""}
                onClick={() => void apply(finding, c)}
              >
                {trying.value === c.words ? inspectWords.applying : inspectWords.apply}
              </button>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
