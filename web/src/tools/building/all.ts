import type { Tool } from "../tool.ts";
import { obstacle } from "./obstacle.tsx";
import { opening } from "./opening.tsx";
import { room } from "./room.tsx";
import { picture } from "./underlay.tsx";
import { wall } from "./wall.tsx";

/** The tools that draw the shop itself, in the order of the rail. */
export const building: readonly Tool[] = [room, wall, opening, obstacle, picture];
