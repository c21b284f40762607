import { signal } from "@preact/signals";
import type { ScreenBasketRow, ScreenNeedRow } from "../../api/types.gen.ts";
import { jobPath } from "../../state/address.ts";
import { chosen, lit } from "../../state/ask.ts";
import { job, purchase } from "../../state/data.ts";
import { printOnly } from "../../state/print.ts";
import { tick, ticked } from "../../state/ticks.ts";
import { buyWords as words } from "../../words/buy.ts";
import { onDay } from "../../words/when.ts";
import { From } from "../facts/facts.tsx";
import { Supposed } from "../facts/supposed.tsx";
import { Cuts } from "./cuts.tsx";
import { TakeIn } from "./intake.tsx";
import { lights } from "./lights.ts";
import { AddOffer, PriceOf } from "./offer.tsx";
import { Quotation } from "./quotation.tsx";
import { Rooms } from "./rooms.tsx";

/** The stage of work that the list is for; "" for all of it. */
const stage = signal("");
/** Which of the baskets is open. */
const basket = signal(0);

function Need({ need }: { need: ScreenNeedRow }) {
  const share = need.stages.find((s) => s.stage === stage.value);
  if (stage.value !== "" && !share) return null;
  const on = need.things.some((id) => lit.value.has(id));
  return (
    <tr class={on ? "lit" : undefined} {...lights(...need.things)}>
      <td>
        <label class="tick">
          <input
            type="checkbox"
            checked={ticked.value.has(need.article)}
            onChange={() => tick(need.article)}
          />
          <span>{need.words}</span>
        </label>
        {!need.sold && <strong class="unsold">{words.unsold}</strong>}
        {!need.sold && <PriceOf need={need} />}
        {need.spare && (
          <span class="soft">
            {" "}
            {words.spare} {need.spare}
          </span>
        )}
        {need.drawer && (
          <span class="soft">
            {" "}
            {words.drawer} {need.drawer}
          </span>
        )}
        {need.counted && <span class="soft claim">{need.counted}</span>}
        <From origin={need.from} of={need.words} />
      </td>
      <td class="number">{stage.value === "" ? need.number : share?.number}</td>
    </tr>
  );
}

function Needs({ rows }: { rows: ScreenNeedRow[] }) {
  const shelves = [...new Set(rows.map((r) => r.shelf))];
  return (
    <table class="parts">
      <caption class="hidden">{words.list}</caption>
      <thead>
        <tr>
          <th scope="col">{words.what}</th>
          <th scope="col" class="number">
            {words.number}
          </th>
        </tr>
      </thead>
      {shelves.map((shelf) => (
        <tbody key={shelf}>
          <tr class="shelf">
            <th colSpan={2} scope="rowgroup">
              {shelf}
            </th>
          </tr>
          {rows
            .filter((r) => r.shelf === shelf)
            .map((r) => (
              <Need key={r.article} need={r} />
            ))}
        </tbody>
      ))}
    </table>
  );
}

function Basket({ of }: { of: ScreenBasketRow }) {
  return (
    <>
      <p class="sentence">
        <strong>{of.price}</strong>, {of.proof}. <From origin={of.from} of={of.title} />
      </p>
      {of.shops.map((shop) => (
        <section key={shop.supplier} class="shop-list">
          <h4>
            {shop.supplier} <span class="soft">{shop.goods}</span>
            {shop.delivery && (
              <span class="soft">
                {" "}
                + {words.delivery} {shop.delivery}
              </span>
            )}
          </h4>
          <table class="rows">
            <caption class="hidden">{shop.supplier}</caption>
            <tbody>
              {shop.lines.map((l) => (
                <tr key={l.words}>
                  <td class="number">{l.times} ×</td>
                  <th scope="row">
                    {l.offer ? (
                      <button
                        type="button"
                        class="thing-link"
                        onClick={() => {
                          chosen.value = l.offer ?? "";
                        }}
                      >
                        {l.words}
                      </button>
                    ) : (
                      l.words
                    )}
                  </th>
                  <td class="number">{l.cost}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ))}
      {of.left.length > 0 && (
        <p class="soft">
          {words.left} {of.left.join("; ")}.
        </p>
      )}
    </>
  );
}

/** What to buy, where, and how it is cut. */
export function Buy() {
  const answer = purchase.value.value;
  if (!answer) return <p class="soft">{purchase.fault.value || words.wait}</p>;
  const open = answer.baskets[basket.value] ?? answer.baskets[0];
  // Where nothing has a price yet, that is what comes next: not under a long list.
  const unpriced = answer.baskets.length === 0;
  const bring = (
    <>
      <TakeIn needs={answer.needs} />
      <AddOffer needs={answer.needs} />
    </>
  );
  return (
    <section class="days buy" aria-label={words.list}>
      <p class="print-title">
        {job.value.value?.head?.title}, {onDay(new Date())}
      </p>
      <p class="sentence">{answer.sentence}</p>
      {answer.baskets.length > 0 && (
        <>
          <h3>{words.basket}</h3>
          {answer.baskets.length > 1 && (
            <fieldset class="segments">
              <legend class="hidden">{words.basket}</legend>
              {answer.baskets.map((b, i) => (
                <label key={b.title}>
                  <input
                    type="radio"
                    name="basket"
                    checked={b === open}
                    onChange={() => {
                      basket.value = i;
                    }}
                  />
                  <span>
                    {b.title}, {b.price}
                  </span>
                </label>
              ))}
            </fieldset>
          )}
          {open && <Basket of={open} />}
        </>
      )}
      {unpriced && bring}
      <Quotation />
      <h3>{words.list}</h3>
      <label class="select">
        <span>{words.stage}</span>
        <select
          value={stage.value}
          onChange={(e) => {
            stage.value = e.currentTarget.value;
          }}
        >
          <option value="">{words.all}</option>
          {answer.stages.map((s) => (
            <option key={s} value={s}>
              {words.stages[s] ?? s}
            </option>
          ))}
        </select>
      </label>
      <Needs rows={answer.needs} />
      {answer.rooms.length > 0 && <Rooms rows={answer.rooms} />}
      {words.take.map(([form, as]) => (
        <p key={form} class="take">
          <span>{as} </span>
          {words.files.map(([file, of]) => (
            <a
              key={file}
              href={jobPath(`/lists/${file}.${form}`)}
              download
              aria-label={`${of}, ${form.toUpperCase()}`}
            >
              {of}
            </a>
          ))}
        </p>
      ))}
      <p class="take">
        <button type="button" onClick={(e) => printOnly(e.currentTarget.closest(".buy"))}>
          {words.print}
        </button>
      </p>
      {!unpriced && bring}
      {answer.cuts.length > 0 && <h3>{words.plan}</h3>}
      {answer.cuts.map((c) => (
        <Cuts key={c.words} of={c} />
      ))}
      {answer.tools.length > 0 && (
        <>
          <h3>{words.tools}</h3>
          <p>{answer.tools.join("; ")}.</p>
        </>
      )}
      <Supposed notes={answer.notes} />
    </section>
  );
}
