import { signal } from "@preact/signals";
import type { ScreenNeedRow } from "../../api/types.gen.ts";
import { step } from "../../state/post.ts";
import { buyWords as words } from "../../words/buy.ts";

/** A number as people type it: a comma or a point before the cents. */
const numberOf = (text: string): number => Number(text.trim().replace(",", "."));

/** A price for an article that is on no list: Enter states it. */
export function PriceOf({ need }: { need: ScreenNeedRow }) {
  const put = (e: Event) => {
    e.preventDefault();
    const field = (e.currentTarget as HTMLFormElement).elements.namedItem("each") as HTMLInputElement;
    const each = numberOf(field.value);
    if (field.value.trim() === "" || !(each >= 0)) {
      field.setCustomValidity(words.noNumber);
      field.reportValidity();
      return;
    }
    void step({ do: "price", article: need.article, each, per: need.per });
  };
  return (
    <form class="price-of" onSubmit={put}>
      <label>
        <span>{need.per === "m" ? words.eachMetre : words.each}</span>
        <input
          name="each"
          inputMode="decimal"
          autocomplete="off"
          onInput={(e) => e.currentTarget.setCustomValidity("")}
        />
      </label>
    </form>
  );
}

interface Row {
  article: string;
  number: string;
}

const blank = (): Row => ({ article: "", number: "" });
const draft = signal({ supplier: "", words: "", price: "", rows: [blank()] });

/** An offer of a supplier put in by hand: a kit, a pack, a coil, a stick. */
export function AddOffer({ needs }: { needs: ScreenNeedRow[] }) {
  const now = draft.value;
  const set = (part: Partial<typeof now>) => {
    draft.value = { ...draft.value, ...part };
  };
  const row = (i: number, part: Partial<Row>) =>
    set({ rows: now.rows.map((r, k) => (k === i ? { ...r, ...part } : r)) });
  const add = (e: Event) => {
    e.preventDefault();
    const holds = now.rows
      .filter((r) => r.article !== "")
      .map((r) => ({ article: r.article, number: numberOf(r.number) || 0 }));
    void step({
      do: "offer",
      supplier: now.supplier,
      words: now.words,
      price: numberOf(now.price) || 0,
      holds,
    }).then((o) => {
      if (o.done) draft.value = { supplier: now.supplier, words: "", price: "", rows: [blank()] };
    });
  };
  return (
    <details class="add-offer">
      <summary>{words.addOffer}</summary>
      <form onSubmit={add}>
        <label>
          <span>{words.supplier}</span>
          <input value={now.supplier} required onInput={(e) => set({ supplier: e.currentTarget.value })} />
        </label>
        <label>
          <span>{words.whatItIs}</span>
          <input value={now.words} required onInput={(e) => set({ words: e.currentTarget.value })} />
        </label>
        <label>
          <span>{words.price}</span>
          <input
            value={now.price}
            required
            inputMode="decimal"
            onInput={(e) => set({ price: e.currentTarget.value })}
          />
        </label>
        {now.rows.map((r, i) => (
          <fieldset key={i} class="holds">
            <legend class="hidden">{words.holds}</legend>
            <label>
              <span>{words.number}</span>
              <input
                value={r.number}
                required
                inputMode="decimal"
                onInput={(e) => row(i, { number: e.currentTarget.value })}
              />
            </label>
            <label>
              <span>{words.of}</span>
              <select value={r.article} required onChange={(e) => row(i, { article: e.currentTarget.value })}>
                <option value="">{words.choose}</option>
                {needs.map((n) => (
                  <option key={n.article} value={n.article}>
                    {n.words}
                    {n.per === "m" ? `, ${words.inMetres}` : ""}
                  </option>
                ))}
              </select>
            </label>
          </fieldset>
        ))}
        <div class="row-buttons">
          <button type="button" class="plain" onClick={() => set({ rows: [...now.rows, blank()] })}>
            {words.oneMore}
          </button>
          <button type="submit">{words.add}</button>
        </div>
      </form>
    </details>
  );
}
