import { computed, signal } from "@preact/signals";
import type { JobRoom, JobZone } from "../../api/types.gen.ts";
import { choose } from "../../state/ask.ts";
import { pieces } from "../../state/live.ts";
import { trouble } from "../../state/notice.ts";
import { step } from "../../state/post.ts";
import { buildingWords } from "../../words/building.ts";
import type { Vec2 } from "../space.ts";
import { besideCorner, type Way } from "./beside.ts";
import { entry, put, settleAll } from "./entry.tsx";
import { all, madeOf, thickness, wallHeight } from "./kit.ts";
import { simplified } from "./outline.ts";

// What the next room is made like, and the step that draws it.

const words = buildingWords.room;

export const by = signal<"corners" | "outline">("corners");
export const name = signal("");
export const width = entry("length");
export const depth = entry("length");
export const floor = entry("length", 0);
export const above = signal<"open" | "boarded" | "tiled">("open");
export const voidHigh = entry("length", 0.4);
export const walled = signal<"yes" | "no">("yes");
/** A zone's id, a climate of which a zone is made, or "" for neither. */
export const climate = signal("");
export const winter = entry("temperature");
export const summer = entry("temperature");

/** Where a room with typed sizes stands beside the last one. */
export const way = signal<Way>("right");
const drawn = signal("");

/** The room drawn last, else the last of the job. */
export const last = computed(() => {
  const rooms = all<JobRoom>("room", pieces.value);
  return rooms.find((r) => r.id === drawn.value) ?? rooms[rooms.length - 1];
});

/** What the next room is called where nothing is typed. */
export const usualName = computed(() => words.usual(all<JobRoom>("room", pieces.value).length));

/** The zone that the next room is put into where nothing else was said: that of the last one. */
export const nextClimate = computed(() => climate.value || last.value?.thing.zone || "");

const mm = (v: number): number => Math.round(v * 1e4) / 1e4;

function zoneOf(): object {
  const wish = nextClimate.value;
  if (wish === "none" || wish === "") return {};
  if (all<JobZone>("zone").some((z) => z.id === wish)) return { zone: wish };
  const celsius = (k: number | null) => (k === null ? undefined : Math.round((k - 273.15) * 100) / 100);
  return { climate: wish, winter_C: celsius(winter.si.value), summer_C: celsius(summer.si.value) };
}

/** The gesture for a room of a shape: outline_m, or corner_m and size_m. */
export function roomStep(shape: object): object {
  const low = floor.si.value ?? 0;
  const tiled = above.value === "tiled";
  return {
    do: "room",
    name: name.value.trim() || usualName.value,
    ...shape,
    floor_m: mm(low),
    ceiling_m: mm(low + (wallHeight.si.value ?? 0)),
    above: above.value,
    ...(tiled ? { void_m: mm(voidHigh.si.value ?? 0) } : {}),
    ...zoneOf(),
    walls:
      walled.value === "yes"
        ? { thickness_m: mm(thickness.si.value ?? 0), ...(madeOf.value ? { made_of: madeOf.value } : {}) }
        : null,
  };
}

/** Draws the room; true when it stands. */
export async function drawRoom(shape: object): Promise<boolean> {
  if (!(await settleAll(wallHeight, thickness, floor, voidHigh, winter, summer))) {
    trouble.value = { kind: "refused", words: buildingWords.unread, lines: [] };
    return false;
  }
  const o = await step(roomStep(shape));
  if (!o.done) return false;
  const [id = ""] = o.made;
  drawn.value = id;
  name.value = "";
  // A climate made for this room is the zone of the next one too.
  climate.value = "";
  if (id !== "") choose(id);
  return true;
}

export const drawOutline = (corners: readonly Vec2[]): Promise<boolean> =>
  drawRoom({ outline_m: simplified(corners).map((p) => p.map(mm)) });

/** Draws the room with its typed sizes beside the last one. */
export async function drawTyped(): Promise<boolean> {
  const read = await settleAll(width, depth);
  const size: Vec2 = [width.si.value ?? 0, depth.si.value ?? 0];
  if (!read || size[0] <= 0 || size[1] <= 0) {
    trouble.value = { kind: "refused", words: read ? words.missing : buildingWords.unread, lines: [] };
    return false;
  }
  const next = last.value;
  const corner = next ? besideCorner(next.thing.outline_m, way.value, size) : ([0, 0] as Vec2);
  const done = await drawRoom({ corner_m: corner.map(mm), size_m: size.map(mm) });
  if (done) {
    put(width, null);
    put(depth, null);
  }
  return done;
}
