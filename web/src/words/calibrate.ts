// The page's own words about setting the job by readings.

export const calibrateWords = {
  title: "Set the job by these readings",
  lead: "Roughness of lines, what filters take, and what leaks: as the readings show them. For a shop that works; a fault is found first. Couplers, fittings and plates stay as they are.",
  instruments: "Gauges, and which readings",
  gauge: "A gauge is good to, plus or minus",
  gaugeHint: "left out: class 1.6",
  since: "Readings since",
  ask: "Compare",
  marks: { fits: "yes", unfit: "not-yet", untold: "unknown", none: "unknown" } as Record<string, string>,
  verdicts: {
    fits: "The readings fit",
    unfit: "The readings do not fit",
    untold: "Nothing closer than before",
    none: "Nothing to go by",
  } as Record<string, string>,
  figures: "What the readings tell",
  range: (low: string, high: string) => `19 times in 20: ${low} to ${high}`,
  stays: (now: string, low: string, high: string) =>
    `Not told; stays ${now}, somewhere from ${low} to ${high}.`,
  looks: (n: number) => (n === 1 ? "The reading, before and after" : `The ${n} readings, before and after`),
  off: (before: string, now: string) => `off by ${before} before, ${now} now`,
  unanswered: "no answer for it",
  unused: "Not used",
  changes: (rows: readonly string[]) => `Taken over, the job tells otherwise: ${rows.join(", ")}.`,
  same: "Taken over, pressures, parts and price stay as they are told, within what is shown.",
  take: "Take it over",
  taken: "The job stands as the readings showed it. Undo takes it back.",
  older: "The job has changed since: compare again.",
} as const;
