import { get, Refused } from "../../api/client.ts";
import type { Problem, ScreenField, Typed } from "../../api/types.gen.ts";
import { jobPath, query } from "../../state/address.ts";
import { alternative, units } from "../../state/ask.ts";
import { jobUnits } from "../../state/unit.ts";
import { words } from "../../words/words.ts";

/** Why a text does not go into a field, and the form that was probably meant; "" where none is near. */
export interface Wrong {
  words: string;
  nearest: string;
}

/** A problem told at its field, in one line. */
export function wrongOf(why: string, problems: readonly Problem[]): Wrong {
  const p = problems[0];
  if (!p) return { words: why, nearest: "" };
  const read = p.read ? `${p.read}: ` : "";
  return { words: `${read}${words.wanted} ${p.want}`, nearest: p.nearest ?? "" };
}

/** What the program makes of a text typed into a field. */
export type Understood = { typed: Typed; wrong: null } | { typed: null; wrong: Wrong };

/** Asks the program to read a text; it answers with the step that states it. Nothing is changed. */
export async function understand(
  field: Pick<ScreenField, "id" | "key">,
  text: string,
  signal?: AbortSignal,
): Promise<Understood> {
  const path = jobPath(
    `/things/${encodeURIComponent(field.id)}/typed${query(
      ["key", field.key],
      ["text", text],
      ["units", units.value || jobUnits.value],
      ["plan", alternative.value],
    )}`,
  );
  try {
    return { typed: await get<Typed>(path, signal), wrong: null };
  } catch (reason) {
    if (reason instanceof Refused)
      return { typed: null, wrong: wrongOf(reason.message, reason.fault.problems ?? []) };
    throw reason;
  }
}

/** Several steps as one, with a title for the history. */
export function asOne(title: string, steps: readonly unknown[]): { edit: string } & Record<string, unknown> {
  return { edit: "all", title, edits: steps };
}

/** Of several a person chooses: the list with one taken in or out, as the program reads it. */
export function toggled(chosen: readonly string[], id: string, on: boolean): string {
  const rest = chosen.filter((c) => c !== id);
  return (on ? [...rest, id] : rest).join(",");
}

/** Fields in the order of the card: those that are wanted, and those that seldom are. */
export function parted(fields: readonly ScreenField[]): {
  wanted: readonly ScreenField[];
  seldom: readonly ScreenField[];
} {
  const asked = (f: ScreenField) => !f.more || (f.value !== "" && !f.fixed);
  return { wanted: fields.filter(asked), seldom: fields.filter((f) => !asked(f)) };
}
