import type { ComponentType } from "preact";
import { Alternatives } from "./alternatives/alternatives.tsx";
import { Building } from "./building/building.tsx";
import { Compose } from "./compose/compose.tsx";
import { Extend } from "./extend/extend.tsx";
import { Help } from "./help/help.tsx";
import { History } from "./history/history.tsx";
import { Plant } from "./plant/plant.tsx";
import { Propose } from "./propose/propose.tsx";
import { Reading } from "./readings/reading.tsx";
import { Share } from "./share/share.tsx";
import { Sheets } from "./sheets/sheets.tsx";
import { Inspect, JobCard } from "./thing/inspect.tsx";
import { Weak } from "./weak/weak.tsx";

/** What may stand beside the drawing instead of the answer to a question. */
export interface PanelRow {
  /** As it stands in the address. */
  id: string;
  words: string;
  /** A button over the drawing opens it. */
  button: boolean;
  Panel: ComponentType;
}

export const panels: readonly PanelRow[] = [
  { id: "inspect", words: "Properties", button: false, Panel: Inspect },
  { id: "job", words: "Job", button: true, Panel: JobCard },
  { id: "compose", words: "What hangs here", button: false, Panel: Compose },
  { id: "building", words: "Building", button: true, Panel: Building },
  { id: "plant", words: "Plant", button: false, Panel: Plant },
  { id: "propose", words: "Lay it out", button: true, Panel: Propose },
  { id: "extend", words: "Add to it", button: true, Panel: Extend },
  { id: "history", words: "History", button: true, Panel: History },
  { id: "alternatives", words: "Alternatives", button: true, Panel: Alternatives },
  { id: "reading", words: "A reading", button: false, Panel: Reading },
  { id: "weak", words: "Find a fault", button: true, Panel: Weak },
  { id: "sheets", words: "Sheets", button: true, Panel: Sheets },
  { id: "share", words: "Share", button: true, Panel: Share },
  { id: "help", words: "Help", button: true, Panel: Help },
];
