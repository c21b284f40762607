import { signal } from "@preact/signals";
import { useId } from "preact/hooks";
import { chainWords as words } from "../words/chain.ts";
import { busy, make } from "./bring.ts";
import { type Branch, branch, type Chain, enough, firstChain, tableOf } from "./chain.ts";
import { draft, offer } from "./draft.ts";

const chain = signal<Chain | null>(null);

function Text({
  label,
  value,
  hint = "",
  figure = true,
  put,
}: {
  label: string;
  value: string;
  hint?: string;
  figure?: boolean;
  put: (text: string) => void;
}) {
  const id = useId();
  return (
    <div class="measure">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        {...(figure ? { inputMode: "decimal" as const } : {})}
        placeholder={hint}
        value={value}
        onInput={(e) => put(e.currentTarget.value)}
      />
    </div>
  );
}

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
  const id = useId();
  return (
    <fieldset class="chain-part">
      <legend>{words.outlet(n)}</legend>
      <div class="five-fields">
        <Text label={words.main} value={of.main} hint={us ? "40 ft" : "12 m"} put={(main) => put({ main })} />
        <Text label={words.mainSize} value={of.mainSize} put={(mainSize) => put({ mainSize })} />
        <Text label={words.drop} value={of.drop} hint={us ? "10 ft" : "3 m"} put={(drop) => put({ drop })} />
        <Text label={words.dropSize} value={of.dropSize} put={(dropSize) => put({ dropSize })} />
        <Text
          label={words.name}
          value={of.name}
          hint={words.nameHint}
          figure={false}
          put={(name) => put({ name })}
        />
        <Text label={words.hose} value={of.hose} hint={us ? "25 ft" : "8 m"} put={(hose) => put({ hose })} />
        <div class="measure">
          <label for={`${id}hose`}>{words.hoseSize}</label>
          <select
            id={`${id}hose`}
            value={of.hoseSize}
            onChange={(e) => put({ hoseSize: e.currentTarget.value })}
          >
            {["1/4", "3/8", "1/2", "3/4"].map((s) => (
              <option key={s}>{s}</option>
            ))}
          </select>
        </div>
        <div class="measure">
          <label for={`${id}tool`}>{words.tool}</label>
          <select id={`${id}tool`} value={of.item} onChange={(e) => put({ item: e.currentTarget.value })}>
            <option value="">{words.other}</option>
            {(offer.value?.tools ?? []).map((t) => (
              <option key={t.item} value={t.item}>
                {t.words}
              </option>
            ))}
          </select>
        </div>
        {of.item === "" && (
          <>
            <Text
              label={words.takes}
              value={of.takes}
              hint={us ? "12 cfm" : "340 L/min"}
              put={(takes) => put({ takes })}
            />
            <Text label={words.at} value={of.at} hint={us ? "90 psi" : "6.2 bar"} put={(at) => put({ at })} />
          </>
        )}
        <Text
          label={words.toolName}
          value={of.toolName}
          figure={false}
          put={(toolName) => put({ toolName })}
        />
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
            <Text
              label={words.flow}
              value={now.flow}
              hint={us ? "22 cfm" : "620 L/min"}
              put={(flow) => put({ flow })}
            />
            <Text
              label={words.cutIn}
              value={now.cutIn}
              hint={us ? "90 psi" : "7 bar"}
              put={(cutIn) => put({ cutIn })}
            />
            <Text
              label={words.cutOut}
              value={now.cutOut}
              hint={us ? "120 psi" : "9 bar"}
              put={(cutOut) => put({ cutOut })}
            />
            <Text
              label={words.volume}
              value={now.volume}
              hint={us ? "80 gal" : "270 L"}
              put={(volume) => put({ volume })}
            />
          </div>
        </fieldset>
        <fieldset class="chain-part">
          <legend>{words.treated}</legend>
          {Object.entries(words.treats).map(([part, say]) => (
            <Check key={part} label={say} on={now.treated.includes(part)} flip={() => flip(part)} />
          ))}
          {now.treated.includes("regulator") && (
            <Text
              label={words.set}
              value={now.set}
              hint={us ? "100 psi" : "7 bar"}
              put={(set) => put({ set })}
            />
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
