import { building } from "./building/all.ts";
import { connect } from "./connect/connect.tsx";
import { drop } from "./drop/drop.tsx";
import { line } from "./line/line.tsx";
import { measure } from "./measure/measure.tsx";
import { plant } from "./plant/plant.tsx";
import { reroute } from "./reroute/reroute.tsx";
import { select } from "./select/select.tsx";
import { split } from "./split/split.tsx";
import { lay } from "./tool.ts";

/** Every tool in the order of the rail. */
export function layOut(): void {
  lay([select, measure, ...building, line, drop, split, reroute, plant, connect]);
}
