import type { ScreenMadeRow } from "../../api/types.gen.ts";
import { kept } from "../../state/kept.ts";
import { note } from "../../state/outbox.ts";
import { workWords as words } from "../../words/work.ts";

/** When the compressor began to run and stopped, by turns, ms; the first is a start. */
const turns = kept<readonly number[]>("timing", [], Array.isArray);

const spans = (from: number): number[] =>
  turns.value.flatMap((t, i) => {
    const next = turns.value[i + 1];
    return i % 2 === from && next !== undefined ? [Math.round((next - t) / 100) / 10] : [];
  });

/** The leak of all that stands under pressure, by how long the compressor runs and rests. */
export function Timing({ made }: { made: readonly ScreenMadeRow[] }) {
  const loads = spans(0);
  const rests = spans(1);
  const whole = Math.min(loads.length, rests.length);
  const running = turns.value.length % 2 === 1;
  return (
    <section class="timing" aria-label={words.timing}>
      <h3 id="prove-timing" tabIndex={-1}>
        {words.timing}
      </h3>
      <p class="soft">{words.timingLead}</p>
      <button
        type="button"
        class="go strong"
        onClick={() => {
          turns.value = [...turns.value, Date.now()];
        }}
      >
        {running ? words.stops : words.starts}
      </button>
      <p role="status">{whole > 0 ? words.cycles(whole) : ""}</p>
      {turns.value.length > 0 && (
        <p class="take">
          <button
            type="button"
            onClick={() => {
              turns.value = turns.value.slice(0, -1);
            }}
          >
            {words.takeBackPress}
          </button>
          <button
            type="button"
            onClick={() => {
              turns.value = [];
            }}
          >
            {words.scrap}
          </button>
        </p>
      )}
      {whole > 0 && (
        <button
          type="button"
          class="go"
          onClick={() => {
            note({
              kind: "test",
              test: { way: "on-off", loads_s: loads.slice(0, whole), rests_s: rests.slice(0, whole) },
            });
            turns.value = [];
          }}
        >
          {words.record}
        </button>
      )}
      <ul class="made">
        {made.map((m) => (
          <li key={m.record}>
            <strong>{m.figure}</strong> {m.words} <span class="soft">{m.when}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
