import { useId } from "preact/hooks";
import { startWords as say } from "../words/start.ts";
import type { System } from "./answers.ts";
import { change, draft, offer, takeUnits } from "./draft.ts";
import { Choice, Pick } from "./pick.tsx";

/** The fifth question: money, units, and what lines are made of. */
export function Money() {
  const id = useId();
  const d = draft.value;
  const stocks = offer.value?.stocks ?? [];
  const limit = stocks.find((s) => s.stock === d.stock)?.limit;
  return (
    <>
      <div class="measure wide">
        <label for={id}>{say.budget}</label>
        <input
          id={id}
          type="text"
          maxLength={120}
          value={d.budget}
          placeholder={say.budgetHint}
          aria-describedby={`${id}-note`}
          onInput={(e) => change({ budget: e.currentTarget.value })}
        />
        <span id={`${id}-note`} class="measure-echo">
          {say.budgetNote}
        </span>
      </div>
      <Choice<System>
        legend={say.units}
        name="answer-units"
        value={d.units}
        rows={(offer.value?.units ?? []).map((u) => [u.word as System, u.words])}
        took={takeUnits}
      />
      <div class="five-fields">
        <Pick
          label={say.stock}
          value={d.stock}
          rows={[["", say.stockUsual], ...stocks.map((s) => [s.stock, s.words] as const)]}
          took={(stock) => change({ stock })}
        />
      </div>
      {limit && <p class="five-care">{limit}</p>}
    </>
  );
}
