import type { Quote, ScreenDifferRow, ScreenSumRow, ScreenVariation } from "../../api/types.gen.ts";
import { quoteWords as words } from "../../words/quote.ts";
import { onDay } from "../../words/when.ts";
import { stamp } from "../sheets/choice.ts";

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

function Differing({ title, rows }: { title: string; rows: readonly ScreenDifferRow[] }) {
  if (rows.length === 0) return null;
  return (
    <table class="differs">
      <caption class="hidden">{title}</caption>
      <thead>
        <tr>
          <th scope="col">{title}</th>
          {[words.before, words.after, words.by].map((head) => (
            <th key={head} scope="col" class="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((r, i) => (
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
export function Differences({ of, money }: { of: ScreenVariation; money: string }) {
  return (
    <section class="differences" aria-label={words.change}>
      <p class="sentence">{of.sentence}</p>
      <Differing title={words.material} rows={of.goods} />
      <Differing title={words.work} rows={of.work} />
      <Differing title={money} rows={of.sums} />
      {of.notes.map((n) => (
        <p key={n} class="soft">
          {n}
        </p>
      ))}
    </section>
  );
}

function Whole({ of }: { of: Quote }) {
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.work}</th>
            <th scope="col" class="number">
              {words.number}
            </th>
            <th scope="col" class="number">
              {words.each}
            </th>
            <th scope="col" class="number">
              {words.hours}
            </th>
            {of.priced && (
              <th scope="col" class="number">
                {of.money}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {of.lines.map((l) => (
            <tr key={l.for}>
              <th scope="row">
                {l.words}
                {l.usual && " *"}
              </th>
              <td class="number">{l.number}</td>
              <td class="number">
                {l.minutes}
                {l.for === "metre" && words.perMetre}
              </td>
              <td class="number">{l.hours}</td>
              {of.priced && <td class="number">{l.cost}</td>}
            </tr>
          ))}
        </tbody>
      </table>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.material}</th>
            <th scope="col" class="number">
              {words.number}
            </th>
          </tr>
        </thead>
        <tbody>
          {of.goods.map((g, i) => (
            <tr key={i}>
              <th scope="row">{g.words}</th>
              <td class="number">{g.number}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Sums rows={of.sums} money={of.money} />
      {of.notes.map((n) => (
        <p key={n}>{n}</p>
      ))}
    </>
  );
}

/** The document for who pays: on paper alone. */
export function Paper({ of }: { of: Quote }) {
  return (
    <article class="quote-paper">
      <header>
        <h1>{of.change ? words.variation : words.title}</h1>
        <p>{stamp.value.by}</p>
      </header>
      <dl>
        <div>
          <dt>{words.job}</dt>
          <dd>{of.title}</dd>
        </div>
        <div>
          <dt>{words.date}</dt>
          <dd>{onDay(new Date())}</dd>
        </div>
        <div>
          <dt>{words.revision}</dt>
          <dd>{of.revision}</dd>
        </div>
        {of.against && (
          <div>
            <dt>{words.told}</dt>
            <dd>
              {of.against.revision === 0
                ? words.beginning
                : words.state(of.against.revision, of.against.when && onDay(new Date(of.against.when)))}
            </dd>
          </div>
        )}
      </dl>
      {of.change ? <Differences of={of.change} money={of.money} /> : <Whole of={of} />}
      <footer>
        {words.signed.map((who) => (
          <p key={who}>{who}</p>
        ))}
      </footer>
    </article>
  );
}
