import { useEffect, useRef } from "preact/hooks";
import type { JobOutlet, JobPoint } from "../../api/types.gen.ts";
import { chosen } from "../../state/ask.ts";
import { catalogue, kindRow, wantCatalogue } from "../../state/catalogue.ts";
import { pieces, thingOf } from "../../state/live.ts";
import {
  closeComposer,
  draft,
  fresh,
  hang,
  hanging,
  keep,
  keepChanged,
  openAnother,
  openComposer,
  outlets,
  pending,
  wanted,
} from "../../tools/drop/draft.ts";
import type { Draft } from "../../tools/drop/hang.ts";
import { draftOf } from "../../tools/drop/hang.ts";
import { kindOf } from "../../tools/field.ts";
import { lineWords } from "../../words/lines.ts";
import { Back } from "../back.tsx";
import { Hose } from "./hose.tsx";
import { Picture } from "./picture.tsx";
import { Tools } from "./tools.tsx";

const words = lineWords.compose;

export type Change = (more: Partial<Draft>) => void;

/** The composer goes along with what is chosen: to another outlet; for anything else it makes room. */
function follow(at: string): void {
  wantCatalogue();
  if (pending.value || (draft.value && kindOf(draft.value.of) !== "outlet")) return;
  if (draft.value?.of === at || (at !== "" && !pieces.value.has(at))) return;
  keepChanged();
  if (kindOf(at) === "outlet") openComposer(at);
  else if (draft.value) closeComposer();
}

function Names({ now, change }: { now: Draft; change: Change }) {
  return (
    <div class="compose-names">
      <label>
        <span>{words.name}</span>
        <input value={now.name} autocomplete="off" onInput={(e) => change({ name: e.currentTarget.value })} />
      </label>
      <label class="compose-mark">
        <span>{words.mark}</span>
        <input value={now.mark} autocomplete="off" onInput={(e) => change({ mark: e.currentTarget.value })} />
      </label>
    </div>
  );
}

/** What hangs at another outlet, to begin with. */
function Like({ of, change }: { of: string; change: Change }) {
  const others = outlets().filter((o) => o.id !== of);
  if (others.length === 0) return null;
  return (
    <label class="select compose-like">
      <span>{words.like}</span>
      <select
        value=""
        onChange={(e) => {
          const o = others.find((x) => x.id === e.currentTarget.value);
          e.currentTarget.value = "";
          if (!o) return;
          const { hang: parts, hose } = draftOf(o, "");
          change({ hang: parts.map(({ id: _, ...p }) => p), hose });
        }}
      >
        <option value="">{words.choose}</option>
        {others.map((o) => (
          <option key={o.id} value={o.id}>
            {o.mark ? `${o.mark} ` : ""}
            {o.name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Cautions where they matter: on the hose chosen and the tools used here. */
function Cautions({ now }: { now: Draft }) {
  const hose = catalogue.value?.hoses.find((h) => h.id === now.hose?.item);
  const items = now.tools.map((id) => thingOf<{ item?: string }>(id)?.item ?? "");
  const lines = [
    hose && hose.bore_mm > 12 ? words.cautionHose : "",
    items.some((i) => i.startsWith("blow-gun")) ? words.cautionBlow : "",
    items.some((i) => i.includes("spray") || i.includes("hvlp")) ? words.cautionSpray : "",
  ].filter((l) => l !== "");
  return lines.map((l) => (
    <p key={l} class="tool-caution">
      {l}
    </p>
  ));
}

function Ends({ of, now }: { of: string; now: Draft }) {
  // Kept already: the button says so by being out of use.
  const rests =
    of !== "" && wanted.value.item === "" && JSON.stringify(draft.value?.was) === JSON.stringify(now);
  const busy = hanging.value || now.name.trim() === "" || rests;
  const submit = () => {
    const p = pending.value;
    if (of !== "") void keep();
    else if (p)
      void hang(p, draft.value?.now ?? now).then(() =>
        document.querySelector<HTMLElement>(".cursor-pad")?.focus(),
      );
  };
  const o = kindOf(of) === "outlet" ? thingOf<JobOutlet>(of) : undefined;
  const at = thingOf<JobPoint>(o?.point ?? "")?.part.kind ?? "";
  const openings = kindRow(at)?.ports.filter((p) => p.id.startsWith("branch")).length ?? 0;
  const taken = outlets().filter((x) => x.point === o?.point).length;
  return (
    <div class="compose-ends">
      <button type="button" class="do" disabled={busy || (of === "" && !pending.value)} onClick={submit}>
        {of === "" ? words.hang : words.keep}
      </button>
      {o && (
        <button type="button" class="plain" onClick={() => openComposer(of)}>
          {words.asWas}
        </button>
      )}
      {o && openings > taken && (
        <button type="button" class="plain" onClick={() => openAnother(o.point)}>
          {words.another}
        </button>
      )}
      {!o && (
        <button type="button" class="plain" onClick={closeComposer}>
          {words.letBe}
        </button>
      )}
    </div>
  );
}

/** What hangs at an outlet, composed part by part: of a new drop leg, or of one that stands. */
export function Compose() {
  const at = chosen.value;
  useEffect(() => follow(at));
  useEffect(() => keepChanged, []);
  const title = useRef<HTMLHeadingElement>(null);
  const d = draft.value;
  const now = d?.now ?? (pending.value ? fresh() : null);
  const of = d?.of ?? "";
  // On a phone the panel lies below the drawing: what is to be composed comes into sight.
  useEffect(() => title.current?.scrollIntoView({ block: "center" }), [of]);
  if (!now)
    return (
      <section class="compose">
        <h2>{words.title}</h2>
        <p class="soft">{catalogue.value ? words.none : lineWords.loading}</p>
      </section>
    );
  const change: Change = (more) => {
    draft.value = { ...draft.value, of, now: { ...(draft.value?.now ?? now), ...more } };
  };
  return (
    <section class="compose">
      <Back leave={closeComposer} />
      <h2 ref={title}>{of === "" ? words.fresh : words.title}</h2>
      <Names now={now} change={change} />
      <Tools now={now} change={change} />
      <Like of={of} change={change} />
      <h3>{words.order}</h3>
      <Picture of={of} now={now} change={change} />
      <Hose now={now} change={change} />
      <Cautions now={now} />
      <Ends of={of} now={now} />
    </section>
  );
}
