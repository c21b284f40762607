import { useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { catalogue, kindRow, wantCatalogue } from "../../state/catalogue.ts";
import { pickUp, ware } from "../../tools/plant/draft.ts";
import { search, shelf } from "../../tools/plant/shelf.ts";
import { take, tool } from "../../tools/tool.ts";
import { lineWords } from "../../words/lines.ts";
import { Back } from "../back.tsx";
import { KindSign } from "../sign/sign.tsx";

const words = lineWords.plant;

/** The catalogue's plant, in groups and searched: what is taken up here is placed on the drawing. */
export function Plant() {
  const text = useSignal("");
  useEffect(wantCatalogue, []);
  const all = catalogue.value;
  const groups = useMemo(() => (all ? shelf(all) : []), [all]);
  const found = search(groups, text.value);
  return (
    <section class="shelf">
      <Back />
      <h2>{words.panel}</h2>
      <label class="search">
        <span>{words.search}</span>
        <input
          type="search"
          autocomplete="off"
          value={text.value}
          onInput={(e) => {
            text.value = e.currentTarget.value;
          }}
        />
      </label>
      {!all && <p class="soft">{lineWords.loading}</p>}
      {all && found.length === 0 && <p class="soft">{words.none}</p>}
      {found.map((g) => (
        <section key={g.id} aria-label={words.groups[g.id]}>
          <h3>{words.groups[g.id]}</h3>
          <ul>
            {g.wares.map((w) => (
              <li key={w.id}>
                <button
                  type="button"
                  aria-pressed={ware.value?.id === w.id}
                  onClick={() => {
                    if (tool.value?.id !== "plant") take("plant");
                    pickUp(w);
                    document.querySelector<HTMLElement>(".hand-space")?.scrollIntoView({ block: "nearest" });
                    document.querySelector<HTMLElement>(".cursor-pad")?.focus({ preventScroll: true });
                  }}
                >
                  <KindSign kind={kindRow(w.kind)} />
                  <span class="ware-words">
                    {w.words}
                    {w.facts !== "" && <span class="soft">{w.facts}</span>}
                  </span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}
