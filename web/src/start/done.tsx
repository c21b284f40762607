import { useEffect, useRef } from "preact/hooks";
import type { Created } from "../api/types.gen.ts";
import { jobAddress } from "../state/address.ts";
import { expectReadings } from "../state/hints.ts";
import { startWords as say } from "../words/start.ts";

/** The plan is there: what it looks like and comes to, and what was taken for granted to draw it. */
export function Done({
  made,
  existing,
  again,
}: {
  made: Created;
  existing: boolean;
  again: (key: string) => void;
}) {
  const go = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    if (existing) expectReadings(made.id);
    go.current?.focus();
  }, []);
  return (
    <main class="five done">
      <div class="five-ask">
        <h1>{existing ? say.doneStanding : say.done}</h1>
        <p class="done-go">
          <a ref={go} class="go strong" href={`${jobAddress(made.id)}#q=pressure`}>
            {say.openDrawing}
          </a>
        </p>
        {made.facts.length > 0 && (
          <section aria-labelledby="comes-to">
            <h2 id="comes-to">{say.comesTo}</h2>
            <ul class="assumed">
              {made.facts.map((f) => (
                <li key={f}>{f}</li>
              ))}
            </ul>
          </section>
        )}
        {made.assumed.length > 0 && (
          <section aria-labelledby="assumed">
            <h2 id="assumed">{say.assumed}</h2>
            <p class="soft">{say.assumedNote}</p>
            <ul class="assumed">
              {made.assumed.map((a) => (
                <li key={a.words}>
                  {a.words}{" "}
                  {a.key && (
                    <button type="button" class="linkish" onClick={() => again(a.key ?? "")}>
                      {say.sayOtherwise}
                      <span class="hidden">: {a.words}</span>
                    </button>
                  )}
                </li>
              ))}
            </ul>
          </section>
        )}
      </div>
      <div class="five-beside">
        <p class="thumb done-thumb">
          <img src={`/api/jobs/${encodeURIComponent(made.id)}/thumb.svg`} alt="" />
        </p>
      </div>
    </main>
  );
}
