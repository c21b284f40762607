import type { Problem } from "../api/types.gen.ts";
import { startWords as say } from "../words/start.ts";

/** Everything that keeps a file from being read, or answers from being drawn: each with its place and the nearest form. */
export function Problems({
  title,
  rows,
  close,
}: {
  title: string;
  rows: readonly Problem[];
  close?: () => void;
}) {
  return (
    <section class="problems begin-problems" role="alert" aria-label={title}>
      <h2>{title}</h2>
      <ol>
        {rows.map((p) => (
          <li key={`${p.path}${p.read}${p.want}`}>
            <code>{p.path || say.whole}</code>
            <dl>
              {p.nearest && (
                <div class="nearest">
                  <dt>{say.meant}</dt>
                  <dd>
                    <strong>{p.nearest}</strong>
                  </dd>
                </div>
              )}
              {p.read && (
                <div>
                  <dt>{say.read}</dt>
                  <dd>{p.read}</dd>
                </div>
              )}
              <div>
                <dt>{say.wanted}</dt>
                <dd>{p.want}</dd>
              </div>
            </dl>
          </li>
        ))}
      </ol>
      {close && (
        <button type="button" class="linkish" onClick={close}>
          Close
        </button>
      )}
    </section>
  );
}
