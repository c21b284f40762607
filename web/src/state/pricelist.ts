import { signal } from "@preact/signals";
import { send } from "../api/client.ts";
import type { IntakeAsk, PriceList } from "../api/types.gen.ts";
import { intakeWords as words } from "../words/intake.ts";
import { jobPath, query } from "./address.ts";
import { alternative } from "./ask.ts";
import { takeList } from "./post.ts";

/** The list that lies open: its name, its bytes in base64, and what the program reads in it. */
export const listName = signal("");
export const list = signal<PriceList | null>(null);
export const listFault = signal("");
export const reading = signal(false);

/** What the person says of it. */
export const asks = signal<IntakeAsk>({});

const most = 16 * 1024 * 1024;
let file = "";
let asked = 0;

function base64(blob: Blob): Promise<string> {
  return new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(blob);
  });
}

/** Looks at the list anew. An answer that was overtaken by a newer question is dropped. */
async function look(): Promise<void> {
  const mine = ++asked;
  reading.value = true;
  try {
    const answer = await send<PriceList>(
      "POST",
      `${jobPath("/pricelist")}${query(["plan", alternative.value])}`,
      { file, ask: asks.value },
    );
    if (mine !== asked) return;
    list.value = answer;
    listFault.value = "";
  } catch (reason) {
    if (mine === asked) listFault.value = reason instanceof Error ? reason.message : String(reason);
  } finally {
    if (mine === asked) reading.value = false;
  }
}

/** Opens another list; what was said of the last one goes. */
export async function chooseList(chosen: File): Promise<void> {
  putAway();
  if (chosen.size > most) {
    listFault.value = words.tooLarge;
    return;
  }
  file = await base64(chosen);
  listName.value = chosen.name;
  await look();
}

export function putAway(): void {
  asked++;
  file = "";
  listName.value = "";
  list.value = null;
  listFault.value = "";
  reading.value = false;
  asks.value = {};
}

/** States something of the list as a whole. */
export function state(part: IntakeAsk): Promise<void> {
  asks.value = { ...asks.value, ...part };
  return look();
}

/** States what a column is: no other is the same any more, but for those that are passed over. */
export function map(column: string, field: string): void {
  const others = (asks.value.columns ?? []).filter(
    (c) => c.column !== column && (c.field === "nothing" || c.field !== field),
  );
  void state({ columns: [...others, { column, field }] });
}

/** States which article a row is. */
export function pair(row: number, article: string): Promise<void> {
  return state({ pairs: [...(asks.value.pairs ?? []).filter((p) => p.row !== row), { row, article }] });
}

/** Leaves a row out, or takes it back in. */
export function leave(row: number, out: boolean): Promise<void> {
  const others = (asks.value.leave ?? []).filter((r) => r !== row);
  return state({ leave: out ? [...others, row] : others });
}

/** Takes the sure rows, as one step; the others stay to be mended. */
export async function takePrices(): Promise<void> {
  const outcome = await takeList(file, asks.value);
  if (outcome.done) await look();
}
