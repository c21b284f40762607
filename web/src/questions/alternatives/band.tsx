import { effect } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { alternative, panel } from "../../state/ask.ts";
import { job } from "../../state/data.ts";
import { reached } from "../../state/live.ts";
import { planWords as say } from "../../words/panels.ts";

/** An alternative that is there no more, because its making was undone or it was adopted, is not shown any longer. */
const leaveWhatIsGone = () =>
  effect(() => {
    const at = alternative.value;
    if (at === "" || !reached.value) return;
    const lacks = !job.awaited.value && !job.value.value?.plans.some((p) => p.id === at);
    if (lacks || job.fault.value !== "") alternative.value = "";
  });

/** Over the drawing as long as one works in an alternative: which it is, and the way back. */
export function Band() {
  useEffect(leaveWhatIsGone, []);
  if (alternative.value === "") return null;
  const name = job.value.value?.plans.find((p) => p.id === alternative.value)?.words ?? alternative.value;
  return (
    <div class="band" role="status">
      <p>
        {say.band} <strong>{name}</strong>. <span class="band-note">{say.bandNote}</span>
      </p>
      <span class="band-acts">
        <button
          type="button"
          onClick={() => {
            panel.value = "alternatives";
          }}
        >
          {say.compare}
        </button>
        <button
          type="button"
          onClick={() => {
            alternative.value = "";
          }}
        >
          {say.back}
        </button>
      </span>
    </div>
  );
}
