import type { JobUnderlay } from "../../api/types.gen.ts";
import { buildingWords } from "../../words/building.ts";
import { Choice } from "../line/options.tsx";
import { EntryField } from "./entry.tsx";
import { ToolForm } from "./form.tsx";
import { quarterTurned } from "./lay.ts";
import { faintNow, pixels, underlay } from "./picture.tsx";
import {
  busy,
  clear,
  does,
  fade,
  lay,
  length,
  measuring,
  scale,
  source,
  straight,
  take,
  titled,
} from "./placing.ts";

const words = buildingWords.picture;

function Measured() {
  return (
    <>
      <EntryField label={words.known} of={length} hint={buildingWords.anyUnit} />
      <label class="tick">
        <input
          type="checkbox"
          checked={straight.value}
          onChange={(e) => {
            straight.value = e.currentTarget.checked;
          }}
        />
        {words.straight}
      </label>
      <button type="submit" class="do">
        {words.set}
      </button>
    </>
  );
}

function Bring() {
  return (
    <label class={`act bring${busy.value ? " busy" : ""}`}>
      <input
        type="file"
        class="hidden"
        accept="image/png,image/jpeg,image/webp,application/pdf,.pdf"
        disabled={busy.value}
        onChange={(e) => {
          const [file] = e.currentTarget.files ?? [];
          void take(file);
          e.currentTarget.value = "";
        }}
      />
      {busy.value ? words.reading : underlay.value ? words.another : words.file}
    </label>
  );
}

function Pages() {
  const s = source.value;
  const u = underlay.value;
  if (!s || s.pages < 2 || !u?.page) return null;
  const rows = Array.from({ length: s.pages }, (_, i): [string, string] => [
    `${i + 1}`,
    `${i + 1} of ${s.pages}`,
  ]);
  return (
    <Choice label={words.page} value={`${u.page}`} rows={rows} change={(v) => void take(s.file, Number(v))} />
  );
}

/** What is set for the floor picture; while a distance is asked for, nothing else. */
export function Options() {
  const u = underlay.value;
  return (
    <ToolForm done={() => void scale()}>
      {measuring() ? (
        <Measured />
      ) : (
        <>
          <Bring />
          <Pages />
          {u && <Lying u={u} />}
        </>
      )}
    </ToolForm>
  );
}

/** How the picture lies: what the hand does with it, how faint it is, its turn. */
function Lying({ u }: { u: JobUnderlay }) {
  return (
    <>
      <Choice
        label={words.does}
        value={does.value}
        rows={[
          ["scale", words.scale],
          ["move", words.move],
        ]}
        change={(v) => {
          clear();
          does.value = v === "move" ? "move" : "scale";
        }}
      />
      <label class="select faint">
        <span>{words.faint}</span>
        <input
          type="range"
          min="0"
          max="95"
          step="5"
          value={Math.round((faintNow.value ?? u.faint ?? 0) * 100)}
          onInput={(e) => {
            faintNow.value = e.currentTarget.valueAsNumber / 100;
          }}
          onChange={(e) => void fade(e.currentTarget.valueAsNumber / 100)}
        />
      </label>
      <button
        type="button"
        class="act"
        disabled={!pixels.value}
        onClick={() => pixels.value && void lay(u.file, u.page ?? 0, quarterTurned(u, pixels.value))}
      >
        {words.turn}
      </button>
      <button
        type="button"
        class="act"
        onClick={() => {
          clear();
          void titled(words.removed, "building.underlay", null);
        }}
      >
        {words.remove}
      </button>
    </>
  );
}
