import type { JobRoom, JobZone } from "../../api/types.gen.ts";
import { set } from "../../tools/building/change.ts";
import { all } from "../../tools/building/kit.ts";
import { Choice } from "../../tools/line/options.tsx";
import { buildingWords as words } from "../../words/building.ts";

/** Which zone a room lies in. */
export function ZoneChoice({ id, room, label }: { id: string; room: JobRoom; label: string }) {
  const zones = all<JobZone>("zone").map((z): [string, string] => [z.id, z.words]);
  return (
    <Choice
      label={label}
      value={room.zone ?? ""}
      rows={[["", words.panel.noZone], ...zones]}
      change={(v) => void set(id, "zone", v || null)}
    />
  );
}
