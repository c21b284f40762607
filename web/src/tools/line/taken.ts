import { computed } from "@preact/signals";
import type { JobOutlet, JobPoint, JobRun } from "../../api/types.gen.ts";
import { kindRow } from "../../state/catalogue.ts";
import { pieces } from "../../state/live.ts";
import { kindOf } from "../field.ts";

/**
 * Points with no opening left: a relief valve or a drain over or under its receiver is passed over when a line looks
 * for its end. Fittings are never full: they become what the lines at them ask for.
 */
export const taken = computed<ReadonlySet<string>>(() => {
  const joined = new Map<string, number>();
  const add = (point: string) => joined.set(point, (joined.get(point) ?? 0) + 1);
  for (const p of pieces.value.values()) {
    if (kindOf(p.id) === "line") {
      const run = p.thing as JobRun;
      add(run.from.point);
      add(run.to.point);
    } else if (kindOf(p.id) === "outlet") add((p.thing as JobOutlet).point);
  }
  const out = new Set<string>();
  for (const [point, n] of joined) {
    const thing = pieces.value.get(point)?.thing as JobPoint | undefined;
    const kind = kindRow(thing?.part.kind ?? "");
    if (kind && kind.group !== "fitting" && kind.ports.length <= n) out.add(point);
  }
  return out;
});
