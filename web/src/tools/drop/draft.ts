import { signal } from "@preact/signals";
import type { JobOutlet, JobPoint, JobTool } from "../../api/types.gen.ts";
import { choose, panel, units } from "../../state/ask.ts";
import { catalogue, wantCatalogue } from "../../state/catalogue.ts";
import { pieces, thingOf } from "../../state/live.ts";
import { type Outcome, step } from "../../state/post.ts";
import { jobUnits } from "../../state/unit.ts";
import { lineWords as words } from "../../words/lines.ts";
import { kindOf } from "../field.ts";
import { kit } from "../line/kit.ts";
import type { Anchor } from "../place.ts";
import type { Vec3 } from "../space.ts";
import type { Hung } from "./below.ts";
import { alike, composeGesture, type Draft, draftOf, dropGesture, preset } from "./hang.ts";

/** A drop leg that waits to be hung. */
export interface Pending {
  from: Anchor;
  at: Vec3;
  to: Hung;
}

/** Where the leg that is being composed is to hang; null for none. */
export const pending = signal<Pending | null>(null);
/** What is being composed, and for what: "" a new drop leg, an outlet, or a point for a new outlet at it. */
export const draft = signal<{
  of: string;
  now: Draft;
  /** As it stood when it was opened. */
  was?: Draft;
} | null>(null);
/** A tool chosen from the catalogue that is not one of the job's yet. */
export const wanted = signal({ item: "", name: "" });
/** What was hung last; the next one is like it. */
export const lastHung = signal<Draft | null>(null);
/** The gesture is on its way. */
export const hanging = signal(false);

export const outlets = (): JobOutlet[] =>
  [...pieces.value.values()].filter((p) => kindOf(p.id) === "outlet").map((p) => p.thing as JobOutlet);

export const tools = (): JobTool[] =>
  [...pieces.value.values()].filter((p) => kindOf(p.id) === "tool").map((p) => p.thing as JobTool);

/** A draft to begin a new drop leg with: like the last one, else what the shop has. null before the catalogue has come. */
export function fresh(): Draft | null {
  const all = outlets();
  const like = lastHung.value;
  if (like) return alike(like, all, words.drop.outlet);
  const c = catalogue.value;
  if (!c) return null;
  const us = (units.value || jobUnits.value) === "us";
  return alike({ ...preset(c, all, tools(), us), name: "Outlet" }, all, "Outlet");
}

/** Opens the composer on an outlet that stands. */
export function openComposer(outlet: string): void {
  wantCatalogue();
  const o = thingOf<JobOutlet>(outlet);
  if (!o) return;
  pending.value = null;
  wanted.value = { item: "", name: "" };
  const now = draftOf(o, thingOf<JobPoint>(o.point)?.part.kind ?? "");
  draft.value = { of: outlet, now, was: now };
  choose(outlet);
  panel.value = "compose";
}

/** Opens it for one more outlet at the same point, such as the next opening of a manifold. */
export function openAnother(point: string): void {
  const now = fresh();
  if (!now) return;
  pending.value = null;
  draft.value = { of: point, now: { ...now, kind: "", drain: "" } };
}

/** What was changed at an outlet counts, also where the person goes on without saying so: one step to undo. */
export function keepChanged(): void {
  const d = draft.value;
  if (!d?.was || !pieces.value.has(d.of)) return;
  if (wanted.value.item !== "" || JSON.stringify(d.now) !== JSON.stringify(d.was)) void keep(false);
}

export function closeComposer(): void {
  keepChanged();
  wanted.value = { item: "", name: "" };
  pending.value = null;
  draft.value = null;
  if (panel.value === "compose") panel.value = "";
}

/** The tool that is being made one of the job's; "" where that was refused. */
let adding: Promise<string> = Promise.resolve("");

/** The tool chosen from the catalogue becomes one of the job's and is used here, as is one that is on its way. */
export async function withWanted(d: Draft): Promise<Draft> {
  const { item, name } = wanted.value;
  if (item !== "") {
    wanted.value = { item: "", name: "" };
    const plug = d.hose?.socket ?? d.hang.find((p) => p.kind === "coupler")?.item ?? "";
    const thing = { name, item, ...(plug ? { plug } : {}) };
    adding = step({ do: "put", what: "tool", thing }).then((o) => (o.done ? (o.made[0] ?? "") : ""));
  }
  const now = adding;
  const id = await now;
  if (adding === now) adding = Promise.resolve("");
  return id === "" || d.tools.includes(id) ? d : { ...d, tools: [...d.tools, id] };
}

/** Hangs the leg that waits, or another like the last at once. */
export async function hang(p: Pending, composed: Draft): Promise<Outcome> {
  hanging.value = true;
  const d = await withWanted(composed);
  const state = kit.value.state;
  const outcome = await step(dropGesture(d, p.from, p.to.place, state, kit.value.stock));
  hanging.value = false;
  if (!outcome.done) {
    // A tool that was made for it meanwhile stays ticked.
    if (draft.value?.of === "") draft.value = { ...draft.value, now: d };
    return outcome;
  }
  lastHung.value = d;
  pending.value = null;
  draft.value = null;
  settle(outcome.made[0] ?? "");
  return outcome;
}

/** After it hangs the composer goes on with what was made: it may be named. */
function settle(made: string): void {
  if (kindOf(made) !== "outlet") return;
  if (pieces.value.has(made)) openComposer(made);
  else choose(made);
}

/** Sends what was composed for an outlet that stands, or a new one at a point; stay goes on with it. */
export async function keep(stay = true): Promise<Outcome | null> {
  const open = draft.value;
  if (!open || open.of === "" || hanging.value) return null;
  hanging.value = true;
  const d = { ...open, now: await withWanted(open.now) };
  const outlet = kindOf(d.of) === "outlet";
  const stands = outlet ? thingOf<JobPoint>(thingOf<JobOutlet>(d.of)?.point ?? "")?.part.kind : "";
  const now = d.now.kind === stands ? { ...d.now, kind: "" } : d.now;
  const outcome = await step(composeGesture(now, outlet ? { outlet: d.of } : { point: d.of }));
  hanging.value = false;
  if (outcome.done) {
    lastHung.value = { ...d.now, valve: lastHung.value?.valve ?? true, drain: lastHung.value?.drain ?? "" };
    const id = outlet ? d.of : (outcome.made[0] ?? "");
    if (id && stay) openComposer(id);
  } else if (!stay && outlet) {
    // Nothing that was composed is lost where it does not fit.
    draft.value = d;
    choose(d.of);
    panel.value = "compose";
  }
  return outcome;
}
