import type { Compare } from "../../api/types.gen.ts";
import { query } from "../../state/address.ts";
import { panel, supply, units } from "../../state/ask.ts";
import { resource, whereReadable } from "../../state/data.ts";

/** The job and its alternatives side by side, asked for while their panel is open. */
export const compare = resource<Compare>(() =>
  panel.value === "alternatives"
    ? whereReadable(`/compare${query(["case", supply.value], ["units", units.value])}`)
    : "",
);
