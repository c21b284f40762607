import type { ScreenDifferList, ScreenSumRow, ScreenVariation } from "../../api/types.gen.ts";
import { quoteWords as words } from "../../words/quote.ts";

/** What it comes to. */
export function Sums({ rows, money }: { rows: readonly ScreenSumRow[]; money: string }) {
  return (
    <table class="sums">
      <caption class="hidden">{words.altogether}</caption>
      <thead>
        <tr>
          <th scope="col">{words.altogether}</th>
          <th scope="col" class="number">
            {money}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((r) => (
          <tr key={r.words} class={r.total ? "total" : undefined}>
            <th scope="row">{r.words}</th>
            <td class="number">{r.cost}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Differing({ of }: { of: ScreenDifferList }) {
  const [what, ...figures] = of.heads;
  return (
    <table class="differs">
      <caption class="hidden">{what}</caption>
      <thead>
        <tr>
          <th scope="col">{what}</th>
          {figures.map((head) => (
            <th key={head} scope="col" class="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {of.rows.map((r, i) => (
          <tr key={i} class={r.total ? "total" : undefined}>
            <th scope="row">{r.words}</th>
            <td class="number">{r.before}</td>
            <td class="number">{r.after}</td>
            <td class="number">{r.by}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What a change comes to. */
export function Differences({ of }: { of: ScreenVariation }) {
  return (
    <section class="differences" aria-label={words.change}>
      <p class="sentence">{of.sentence}</p>
      {of.lists.map((list) => (
        <Differing key={list.heads[0]} of={list} />
      ))}
      {of.notes.map((n) => (
        <p key={n} class="soft">
          {n}
        </p>
      ))}
    </section>
  );
}
