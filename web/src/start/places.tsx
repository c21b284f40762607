import { startWords as say } from "../words/start.ts";
import { type PlaceAnswer, placeCount, sidesOf, toolCount } from "./answers.ts";
import { change, draft, offer } from "./draft.ts";
import { Along, Measure } from "./measure.tsx";
import type { OnWall } from "./outline.ts";
import { Pick, Sentences } from "./pick.tsx";

/** A place more, with a name of its own. */
export function addPlace(at: OnWall | null): void {
  const d = draft.value;
  if (d.places.length >= (offer.value?.most_places ?? 60)) return;
  const key = Math.max(0, ...d.places.map((p) => p.key)) + 1;
  const longest = [...sidesOf(d)].sort((a, b) => b.long - a.long)[0];
  const on = at ?? { wall: longest?.wall ?? "south", along: (longest?.long ?? 2) / 2 };
  let n = d.places.length + 1;
  while (d.places.some((p) => p.name === say.place(n))) n++;
  change({ pick: true, places: [...d.places, { key, name: say.place(n), ...on, tools: [] }] });
}

function Place({ place }: { place: PlaceAnswer }) {
  const d = draft.value;
  const put = (more: Partial<PlaceAnswer>) =>
    change({ places: d.places.map((p) => (p.key === place.key ? { ...p, ...more } : p)) });
  const id = `place-${place.key}`;
  const tools = (offer.value?.tools ?? []).filter((t) => (d.tools[t.item] ?? 0) > 0);
  return (
    <li class="five-row">
      <div class="measure">
        <label for={id}>{say.placeName}</label>
        <input
          id={id}
          type="text"
          maxLength={60}
          value={place.name}
          aria-invalid={place.name.trim() === ""}
          onInput={(e) => put({ name: e.currentTarget.value })}
        />
      </div>
      <Pick
        label={say.wall}
        value={place.wall}
        rows={sidesOf(d).map((s) => [s.wall, s.wall])}
        took={(wall) => {
          const side = sidesOf(d).find((s) => s.wall === wall);
          put({ wall, along: Math.min(place.along, side?.long ?? place.along) });
        }}
      />
      <Along along={place.along} changed={(along) => put({ along })} />
      <button
        type="button"
        class="linkish"
        onClick={() => change({ places: d.places.filter((p) => p.key !== place.key) })}
      >
        {say.remove}
      </button>
      {tools.length > 0 && (
        <fieldset class="five-here">
          <legend class="soft">{say.usedHere}</legend>
          {tools.map((t) => (
            <label key={t.item}>
              <input
                type="checkbox"
                checked={place.tools.includes(t.item)}
                onChange={(e) =>
                  put({
                    tools: e.currentTarget.checked
                      ? [...place.tools, t.item]
                      : place.tools.filter((i) => i !== t.item),
                  })
                }
              />
              <span>{t.words}</span>
            </label>
          ))}
        </fieldset>
      )}
    </li>
  );
}

function Spread() {
  const d = draft.value;
  const n = placeCount(d, offer.value?.most_places);
  const most = offer.value?.most_places ?? 60;
  const put = (to: number) => change({ spread: Math.min(Math.max(to, 1), most) });
  return (
    <p class="five-spread-count">
      <span>{say.howMany}</span>
      <span class="stepper">
        <button
          type="button"
          aria-label={say.fewer(say.howMany)}
          disabled={n <= 1}
          onClick={() => put(n - 1)}
        >
          −
        </button>
        <output aria-label={say.howMany}>{n}</output>
        <button
          type="button"
          aria-label={say.more(say.howMany)}
          disabled={n >= most}
          onClick={() => put(n + 1)}
        >
          +
        </button>
      </span>
      {d.spread !== null && toolCount(d) > 0 && (
        <button type="button" class="linkish" onClick={() => change({ spread: null })}>
          {say.fromTools}
        </button>
      )}
    </p>
  );
}

/** The fourth question: evenly, or where one clicks. */
export function Places() {
  const d = draft.value;
  const mine = (
    <>
      <ul class="five-rows">
        {d.places.map((p) => (
          <Place key={p.key} place={p} />
        ))}
      </ul>
      <p class="five-add">
        <button type="button" class="linkish" onClick={() => addPlace(null)}>
          {say.addPlace}
        </button>
        <span class="soft">{say.pickHint}</span>
      </p>
    </>
  );
  return (
    <>
      <Sentences
        legend={say.q4}
        name="pick"
        value={d.pick ? "pick" : "evenly"}
        took={(word) => change({ pick: word === "pick" })}
        rows={[
          { word: "evenly", words: say.evenly, under: <Spread /> },
          { word: "pick", words: say.pick, under: mine },
        ]}
      />
      <div class="five-fields">
        <Measure
          label={say.hoses}
          kind="length"
          figure={d.hose}
          hint={d.units === "us" ? "25 ft" : "7.5 m"}
          changed={(hose) => change({ hose })}
        />
        <Measure
          label={say.outletUp}
          kind="length"
          figure={d.outletUp}
          hint={d.units === "us" ? "3 ft 7" : "1.1 m"}
          changed={(outletUp) => change({ outletUp })}
        />
      </div>
    </>
  );
}
