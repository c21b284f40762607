import { signal } from "@preact/signals";
import { Chosen, Field } from "../paint/field.tsx";
import { chainWords as words } from "../words/chain.ts";
import { busy, make } from "./bring.ts";
import { type Branch, branch, type Chain, enough, firstChain, tableOf } from "./chain.ts";
import { draft, offer } from "./draft.ts";

const chain = signal<Chain | null>(null);

/** What of a draft is written into a field. */
type Written<T> = { [K in keyof T]: T[K] extends string ? K : never }[keyof T] & string;

/** A part of a draft as a field holds it. */
const part = <K extends string>(
  of: Readonly<Record<K, string>>,
  key: K,
  put: (change: Record<K, string>) => void,
) => ({
  get value() {
    return of[key];
  },
  set value(text: string) {
    put({ [key]: text } as Record<K, string>);
  },
});

function Check({ label, on, flip }: { label: string; on: boolean; flip: () => void }) {
  return (
    <label class="five-option">
      <input type="checkbox" checked={on} onChange={flip} />
      <span>{label}</span>
    </label>
  );
}

/** The way from the main to one tool. */
function Way({ of, n, put }: { of: Branch; n: number; put: (change: Partial<Branch>) => void }) {
  const us = draft.value.units === "us";
  const own = (key: Written<Branch>) => part(of, key, put);
  return (
    <fieldset class="chain-part">
      <legend>{words.outlet(n)}</legend>
      <div class="five-fields">
        <Field label={words.main} of={own("main")} hint={us ? "40 ft" : "12 m"} />
        <Field label={words.mainSize} of={own("mainSize")} />
        <Field label={words.drop} of={own("drop")} hint={us ? "10 ft" : "3 m"} />
        <Field label={words.dropSize} of={own("dropSize")} />
        <Field label={words.name} of={own("name")} hint={words.nameHint} mode="text" />
        <Field label={words.hose} of={own("hose")} hint={us ? "25 ft" : "8 m"} />
        <Chosen
          label={words.hoseSize}
          value={of.hoseSize}
          options={["1/4", "3/8", "1/2", "3/4"].map((s) => [s, s])}
          put={(hoseSize) => put({ hoseSize })}
        />
        <Chosen
          label={words.tool}
          value={of.item}
          options={[["", words.other], ...(offer.value?.tools ?? []).map((t) => [t.item, t.words] as const)]}
          put={(item) => put({ item })}
        />
        {of.item === "" && (
          <>
            <Field label={words.takes} of={own("takes")} hint={us ? "12 cfm" : "340 L/min"} />
            <Field label={words.at} of={own("at")} hint={us ? "90 psi" : "6.2 bar"} />
          </>
        )}
        <Field label={words.toolName} of={own("toolName")} mode="text" />
      </div>
      <Check label={words.coupler} on={of.coupler} flip={() => put({ coupler: !of.coupler })} />
    </fieldset>
  );
}

/** The main parts of an installation that nobody has drawn; then the search for what is wrong with it. */
export function Parts() {
  const system = draft.value.units;
  const us = system === "us";
  const now = chain.value ?? firstChain(system);
  const put = (change: Partial<Chain>) => {
    chain.value = { ...now, ...change };
  };
  const own = (key: Written<Chain>) => part(now, key, put);
  const putBranch = (n: number) => (change: Partial<Branch>) =>
    put({ branches: now.branches.map((b, i) => (i === n ? { ...b, ...change } : b)) });
  const flip = (part: string) =>
    put({ treated: Object.keys(words.treats).filter((t) => now.treated.includes(t) !== (t === part)) });
  return (
    <main class="five chain">
      <form
        class="five-ask"
        onSubmit={(e) => {
          e.preventDefault();
          if (enough(now) && busy.value === "")
            void make(
              { from: "chain", units: system, chain: tableOf(now, system) },
              "#q=pressure&view=diagram&panel=weak",
            );
        }}
      >
        <h1>{words.title}</h1>
        <p>{words.lead}</p>
        <fieldset class="chain-part">
          <legend>{words.supply}</legend>
          <div class="five-fields">
            <Field label={words.flow} of={own("flow")} hint={us ? "22 cfm" : "620 L/min"} />
            <Field label={words.cutIn} of={own("cutIn")} hint={us ? "90 psi" : "7 bar"} />
            <Field label={words.cutOut} of={own("cutOut")} hint={us ? "120 psi" : "9 bar"} />
            <Field label={words.volume} of={own("volume")} hint={us ? "80 gal" : "270 L"} />
          </div>
        </fieldset>
        <fieldset class="chain-part">
          <legend>{words.treated}</legend>
          {Object.entries(words.treats).map(([part, say]) => (
            <Check key={part} label={say} on={now.treated.includes(part)} flip={() => flip(part)} />
          ))}
          {now.treated.includes("regulator") && (
            <Field label={words.set} of={own("set")} hint={us ? "100 psi" : "7 bar"} />
          )}
        </fieldset>
        {now.branches.map((b, n) => (
          <Way key={n} of={b} n={n} put={putBranch(n)} />
        ))}
        <p class="take">
          <button
            type="button"
            class="go"
            onClick={() =>
              put({ branches: [...now.branches, branch(system, now.branches.at(-1)?.mainSize)] })
            }
          >
            {words.more}
          </button>{" "}
          {now.branches.length > 1 && (
            <button
              type="button"
              class="linkish"
              onClick={() => put({ branches: now.branches.slice(0, -1) })}
            >
              {words.fewer}
            </button>
          )}
        </p>
        <div class="five-end">
          <button type="submit" class="go strong" disabled={!enough(now) || busy.value !== ""}>
            {words.begin}
          </button>
          <p class="soft" role="status">
            {busy.value || (enough(now) ? "" : words.wanted)}
          </p>
        </div>
      </form>
    </main>
  );
}
