import { useRef } from "preact/hooks";
import { chainWords as chain } from "../words/chain.ts";
import { lengthIn } from "../words/length.ts";
import { startWords as say } from "../words/start.ts";
import { lengthOf, outlineOf, usual } from "./answers.ts";
import { bring, busy, make } from "./bring.ts";
import { change, draft } from "./draft.ts";
import { understood } from "./five.tsx";
import { jobs } from "./jobs.tsx";
import { Measure } from "./measure.tsx";
import { Plan } from "./plan.tsx";
import { goTo } from "./where.ts";

/** A small first plan, drawn as the program draws one: what the five questions lead to. */
function Sketch() {
  return (
    <svg class="sketch" viewBox="0 0 240 150" aria-hidden="true">
      <path class="sketch-wall" d="M104 132H20V18H220V132H132" />
      <path class="sketch-door" d="M104 132V104A28 28 0 0 1 132 132" />
      <path class="sketch-line" d="M40 118V28H210V122" />
      <g class="sketch-drops">
        <circle cx="78" cy="28" r="5" />
        <circle cx="132" cy="28" r="5" />
        <circle cx="184" cy="28" r="5" />
        <circle cx="210" cy="76" r="5" />
      </g>
      <circle class="sketch-plant" cx="40" cy="112" r="10" />
      <path class="sketch-plant-mark" d="M35 115.5L40 106.5L45 115.5Z" />
    </svg>
  );
}

/** A button that opens the system's list of files. */
function Files({ words, accept }: { words: string; accept: string }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="go" onClick={() => input.current?.click()}>
        {words}
      </button>
      <input
        ref={input}
        class="hidden"
        type="file"
        tabIndex={-1}
        aria-hidden="true"
        accept={accept}
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          e.currentTarget.value = "";
          if (file) void bring(file, draft.value.units);
        }}
      />
    </>
  );
}

/** Every way to a drawing, the shortest first. */
export function Begin() {
  return (
    <section class="begin" aria-label={say.begin}>
      <div class="way-first">
        <Sketch />
        <div>
          <h2>{say.five}</h2>
          <p>{say.fiveNote}</p>
          <button type="button" class="go strong" onClick={() => goTo("five")}>
            {say.fiveGo}
          </button>
        </div>
      </div>
      <ul class="ways">
        <li>
          <h3>{say.standing}</h3>
          <p class="soft">{say.standingNote}</p>
          <button type="button" class="go" onClick={() => goTo("standing")}>
            {say.drawStanding}
          </button>
        </li>
        <li>
          <h3>{chain.title}</h3>
          <p class="soft">{chain.note}</p>
          <button type="button" class="go" onClick={() => goTo("parts")}>
            {chain.go}
          </button>
        </li>
        <li>
          <h3>{say.picture}</h3>
          <p class="soft">{say.pictureNote}</p>
          <Files
            words={say.pictureGo}
            accept=".png,.jpg,.jpeg,.webp,.pdf,image/png,image/jpeg,image/webp,application/pdf"
          />
        </li>
        <li>
          <h3>{say.empty}</h3>
          <p class="soft">{say.emptyNote}</p>
          <button type="button" class="go" onClick={() => goTo("empty")}>
            {say.emptyGo}
          </button>
        </li>
        <li>
          <h3>{say.file}</h3>
          <p class="soft">{say.fileNote}</p>
          <Files words={say.fileGo} accept=".json,.zip,application/json,application/zip" />
        </li>
      </ul>
    </section>
  );
}

/** The built-in shops. */
export function Examples() {
  const rows = jobs.value?.examples ?? [];
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="examples">
      <h2 id="examples" class="start-title">
        {say.examples}
      </h2>
      <p class="soft">{say.examplesNote}</p>
      <ul class="cards">
        {rows.map((x) => (
          <li key={x.name} class="card">
            <button
              type="button"
              class="card-open"
              disabled={busy.value !== ""}
              onClick={() => void make({ from: "example", example: x.name })}
            >
              <span class="thumb">
                <img src={x.thumb} alt="" loading="lazy" />
              </span>
              <span class="card-title">{x.words}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Makes the room, once what was typed last is understood. */
async function makeRoom(): Promise<void> {
  await understood();
  const d = draft.value;
  const height = lengthOf(d, "height");
  if (busy.value !== "" || outlineOf(d) === null || height === null) return;
  const room = { width_m: lengthOf(d, "width"), depth_m: lengthOf(d, "depth"), height_m: height };
  void make({ from: "empty", title: d.title.trim(), units: d.units, room });
}

/** Title and size of a room with nothing in it. */
export function Empty() {
  const d = draft.value;
  return (
    <main class="five">
      <form
        class="five-ask"
        onSubmit={(e) => {
          e.preventDefault();
          void makeRoom();
        }}
      >
        <h1>{say.empty}</h1>
        <div class="measure wide">
          <label for="empty-title">{say.titleOf}</label>
          <input
            id="empty-title"
            type="text"
            maxLength={120}
            placeholder={say.titleHint}
            value={d.title}
            onInput={(e) => change({ title: e.currentTarget.value })}
          />
        </div>
        <div class="five-fields">
          {(["width", "depth", "height"] as const).map((k) => (
            <Measure
              key={k}
              label={say[k]}
              kind="length"
              figure={d[k]}
              usual={lengthIn(d.units, usual(d, k))}
              changed={(f) => change({ [k]: f })}
            />
          ))}
        </div>
        <div class="five-end">
          <button type="submit" class="go strong" disabled={busy.value !== ""}>
            {say.emptyGo}
          </button>
          <p class="soft" role="status">
            {busy.value}
          </p>
        </div>
      </form>
      <div class="five-beside">
        <Plan bare hint={say.emptyNext} />
      </div>
    </main>
  );
}
