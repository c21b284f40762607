import { signal } from "@preact/signals";
import type { CatalogueKind } from "../../api/types.gen.ts";
import { kindRow } from "../../state/catalogue.ts";
import { height } from "../hand.ts";
import { type Stated, usualHeight, type Ware } from "./shelf.ts";

/** What is in the hand to be placed; null for nothing yet. */
export const ware = signal<Ware | null>(null);

export const stated = signal<Stated>({ name: "", volume_L: 0, set_kPa_g: 0 });

/** What is usual where a figure must be given, as a beginning. */
const usual = { volume_L: 200, line_kPa_g: 600, relief_kPa_g: 1000 };

export const kindInHand = (): CatalogueKind | undefined => kindRow(ware.value?.kind ?? "");

/** Takes a ware into the hand. */
export function pickUp(w: Ware): void {
  ware.value = w;
  const kind = kindRow(w.kind);
  if (!kind) return;
  height.value = usualHeight(kind);
  stated.value = {
    name: "",
    volume_L: usual.volume_L,
    set_kPa_g: kind.roles.includes("relieves") ? usual.relief_kPa_g : usual.line_kPa_g,
  };
}
