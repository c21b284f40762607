import { useEffect } from "preact/hooks";
import type { JobPoint, JobRun } from "../../api/types.gen.ts";
import { jobId } from "../../state/address.ts";
import { alternative, chosen, panel, question } from "../../state/ask.ts";
import { did, done, type Hint, readingsExpected } from "../../state/hints.ts";
import { outletRows, pieces, shown } from "../../state/live.ts";
import { taken } from "../../state/post.ts";
import { hintWords as say } from "../../words/panels.ts";

const order: readonly Hint[] = ["choose", "draw", "ask", "back"];

/** Watches for what the hints speak of: each goes away when it was done once. */
function follow(): () => void {
  const first = { question: question.peek(), taken: taken.peek() };
  const stops = [
    chosen.subscribe((id) => {
      // The page chooses the weakest outlet by itself; what the hand chooses is meant here.
      if (id.startsWith("outlet.") && document.activeElement !== document.body) done("choose");
    }),
    question.subscribe((q) => {
      if (q !== first.question) done("ask");
    }),
    taken.subscribe((n) => {
      if (n > first.taken) done("draw");
    }),
  ];
  return () => {
    for (const stop of stops) stop();
  };
}

/** What a shop that has no outlet yet wants next; "" where it has one. */
function next(): keyof typeof say.next | "" {
  if (outletRows.value.length > 0) return "";
  const all = [...pieces.value.values()];
  const parts = all.flatMap((p) => (p.id.startsWith("point.") ? [(p.thing as JobPoint).part.kind] : []));
  if (!parts.includes("compressor")) return "compressor";
  if (!parts.includes("receiver")) return "receiver";
  return all.some((p) => p.id.startsWith("line.") && (p.thing as JobRun).role === "main") ? "drop" : "line";
}

/** One hint at a time, in a row of its own above the drawing and never on it. */
export function Hints() {
  useEffect(follow, []);
  if (shown.value < 0 || alternative.value !== "") return null;
  const waits = readingsExpected(jobId) && !did.value.has(`readings ${jobId}`);
  const begun = did.value.has("begin") ? "" : next();
  const now: Hint | undefined = waits
    ? "readings"
    : begun !== ""
      ? "begin"
      : order.find((h) => !did.value.has(h) && (h !== "choose" || outletRows.value.length > 0));
  if (!now || panel.value === "help") return null;
  return (
    <aside class="first-hint" aria-label={say.label}>
      <p>{now === "begin" ? begun && say.next[begun] : say[now]}</p>
      {now === "readings" && (
        <button
          type="button"
          class="linkish"
          onClick={() => {
            panel.value = "reading";
          }}
        >
          {say.enter}
        </button>
      )}
      <button
        type="button"
        class="linkish"
        onClick={() => done(now === "readings" ? `readings ${jobId}` : now)}
      >
        {say.close}
      </button>
    </aside>
  );
}
