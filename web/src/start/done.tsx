import { useEffect, useRef } from "preact/hooks";
import type { Created } from "../api/types.gen.ts";
import { jobAddress } from "../state/address.ts";
import { expectReadings } from "../state/hints.ts";
import { startWords as say } from "../words/start.ts";

/** The plan is there: what it looks like, and what was taken for granted to draw it. */
export function Done({ made, existing }: { made: Created; existing: boolean }) {
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
        {made.notes.length > 0 && (
          <section aria-labelledby="assumed">
            <h2 id="assumed">{say.assumed}</h2>
            <p class="soft">{say.assumedNote}</p>
            <ul class="assumed">
              {made.notes.map((n) => (
                <li key={n}>{n}</li>
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
