import type { JobPoint } from "../../api/types.gen.ts";
import { letGo, panel, selection } from "../../state/ask.ts";
import { kindRow } from "../../state/catalogue.ts";
import { pieces, thingOf } from "../../state/live.ts";
import { step } from "../../state/post.ts";
import { openComposer } from "../drop/draft.ts";
import { kindOf } from "../field.ts";
import { kit } from "../line/kit.ts";
import { bypassable, joinAt, runsIn, stated } from "./act.ts";

// The actions on what is chosen, as buttons and keys call them.

export function markAs(state: string): void {
  const ids = stated(selection.value);
  if (ids.length > 0) void step({ do: "state", ids, state });
}

export function joinChosen(): void {
  const point = joinAt(pieces.value, selection.value);
  if (point === "") return;
  void step({ do: "join", point }).then((o) => o.done && selection.value.includes(point) && letGo());
}

export function composeChosen(): void {
  const [one = ""] = selection.value;
  if (kindOf(one) === "outlet") openComposer(one);
}

/** Opens the card's fields for stock and size and goes there. */
export function openStock(): void {
  if (runsIn(pieces.value, selection.value).length === 0) return;
  panel.value = "";
  setTimeout(() => {
    const fold = document.getElementById("act-stock") as HTMLDetailsElement | null;
    if (!fold) return;
    fold.open = true;
    fold.querySelector("select")?.focus();
  });
}

export const treats = (kind: string): boolean => kindRow(kind)?.group === "treatment";

export function bypassChosen(): void {
  const around = bypassable(pieces.value, selection.value, treats);
  if (around.length > 0) void step({ do: "bypass", around });
}

export function eraseChosen(): void {
  const ids = selection.value;
  if (ids.length > 0) void step({ do: "erase", ids }).then((o) => o.done && letGo());
}

/** The relief valve's opening and the drain under a receiver: where they usually sit, m from its middle. */
const crown = 0.85;
const sump = 0.75;

/** Whether a receiver lacks its relief valve or its drain. */
export function lacks(point: string): string[] {
  const thing = thingOf<JobPoint>(point);
  const ports = kindRow(thing?.part.kind ?? "")?.ports.map((p) => p.id) ?? [];
  const wanted = ["relief", "drain"].filter((p) => ports.includes(p));
  if (!thing || wanted.length < 2) return [];
  const taken = new Set<string>();
  for (const p of pieces.value.values()) {
    if (kindOf(p.id) !== "line") continue;
    const run = p.thing as { from: { point: string; port?: string }; to: { point: string; port?: string } };
    for (const end of [run.from, run.to]) if (end.point === point && end.port) taken.add(end.port);
  }
  return wanted.filter((p) => !taken.has(p));
}

/** Gives a receiver its relief valve and its drain, each on a short line of its own. */
export async function equip(point: string, set_kPa_g: number): Promise<void> {
  const at = pieces.value.get(point)?.at_m;
  if (!at) return;
  const thing = thingOf<JobPoint>(point);
  const state = thing?.state ? { state: thing.state } : {};
  const floor = Math.max(0.1, at[2] - sump);
  for (const port of lacks(point)) {
    const relief = port === "relief";
    const kind = relief ? "relief-valve" : "drain-cock";
    const made = await step({
      do: "plant",
      kind,
      at: { at_m: [at[0], at[1], relief ? at[2] + crown : floor] },
      ...state,
      ...(relief ? { figures: { kind, set_kPa_g } } : {}),
    });
    const end = made.done ? made.made[0] : undefined;
    if (!end) return;
    const line = await step({
      do: "line",
      from: { point, port },
      to: { point: end },
      stock: kit.value.stock,
      size: kit.value.size,
      role: relief ? "branch" : "drip",
      ...state,
    });
    if (!line.done) return;
  }
}
