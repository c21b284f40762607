import { waterWords as words } from "../../words/water.ts";

/** What an answer had to suppose. */
export function Supposed({ notes }: { notes: readonly string[] }) {
  if (notes.length === 0) return null;
  return (
    <details class="supposed">
      <summary>{words.supposed}</summary>
      <ul>
        {notes.map((n) => (
          <li key={n}>{n}</li>
        ))}
      </ul>
    </details>
  );
}
