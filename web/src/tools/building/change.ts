import type { JobRoom, JobWall } from "../../api/types.gen.ts";
import { pieces } from "../../state/live.ts";
import { step } from "../../state/post.ts";
import { all } from "./kit.ts";
import { setting } from "./setting.ts";
import { wallsOf } from "./standing.ts";

// Edits of what stands already.

/** Sets one value of a thing. */
export const set = (id: string, key: string, value: unknown) =>
  step(setting(id, pieces.value.get(id)?.words ?? id, key, value, pieces.value.get(`${value}`)?.words));

const mm = (v: number): number => Math.round(v * 1e6) / 1e6;

/** Another height of a room: the walls that reach its ceiling go along. */
export function raiseRoom(room: JobRoom, height: number): ReturnType<typeof step> {
  const walls = wallsOf(
    room,
    all<JobWall>("wall").map((w) => w.thing),
  );
  return step({
    edit: "all",
    title: `made ${room.name ?? room.id} ${Number(height.toFixed(3))} m high`,
    edits: [
      { edit: "set", id: room.id, key: "ceiling_m", value: mm(room.floor_m + height) },
      ...walls.map((w) => ({ edit: "set", id: w.id, key: "height_m", value: mm(height) })),
    ],
  });
}

/** Takes a zone away; its rooms are then in none. */
export const removeZone = (id: string): ReturnType<typeof step> => step({ do: "erase", ids: [id] });
