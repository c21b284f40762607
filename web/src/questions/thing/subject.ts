import { computed } from "@preact/signals";
import type { Thing } from "../../api/types.gen.ts";
import { query } from "../../state/address.ts";
import { chosen, panel } from "../../state/ask.ts";
import { ask, resource, thing, whereReadable } from "../../state/data.ts";

/** What is opened where the thing chosen is not: the job itself, or an outlet, whose answer is its way. */
const other = computed(() => {
  if (panel.value === "job") return "job";
  return panel.value === "inspect" && chosen.value.startsWith("outlet.") ? chosen.value : "";
});

const opened = resource<Thing>(() =>
  other.value === "" ? "" : whereReadable(`/things/${encodeURIComponent(other.value)}${query(...ask())}`),
);

/** The thing that the inspector shows, and why there is none. */
export const subject = computed(() => {
  const from = other.value === "" ? thing : opened;
  const wanted = other.value || chosen.value;
  const known = from.value.value;
  return { thing: known?.id === wanted ? known : null, fault: from.fault.value, wanted };
});
