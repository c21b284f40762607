import type { ScreenHead } from "./api/types.gen.ts";
import { Panels } from "./bar.tsx";
import { ChooseTheme } from "./choose-theme.tsx";
import { units } from "./state/ask.ts";
import { words } from "./words/words.ts";

/** Title, plan, counts; what may stand beside the drawing; units and light. */
export function Head({ head }: { head: ScreenHead }) {
  return (
    <header class="head of-job">
      <a class="home" href="/" aria-label={words.allJobs}>
        {words.jobs}
      </a>
      <div class="head-title">
        <h1 title={head.title}>{head.title}</h1>
        <p class="facts-line">{[head.plan, ...head.facts].join(" · ")}</p>
      </div>
      <Panels />
      <div class="switches">
        <fieldset class="segments">
          <legend class="hidden">{words.units}</legend>
          {head.systems.map((s) => (
            <label key={s.id}>
              <input
                type="radio"
                name="units"
                checked={(units.value || head.units) === s.id}
                onChange={() => {
                  units.value = s.id;
                }}
              />
              <span>{s.words}</span>
            </label>
          ))}
        </fieldset>
        <ChooseTheme />
      </div>
    </header>
  );
}
