// The page's own words about working days and charts.

export const dayWords = {
  back: "Back to the shop’s worst moment",
  beside: "Short while running",
  chance: "Chance of enough",
  day: "A working day",
  days: "Working days",
  dayNote: "Slide through it: the drawing shows the moment.",
  hour: (from: string, to: string) => `From ${from} to ${to}, with who works`,
  hours: "A day",
  moment: "Moment of the day",
  momentOf: (at: string) => `At ${at} of a working day`,
  noMoment: "No moment is shown.",
  remedies: "What would do, each by itself",
  save: (what: string) => `Save ${what}`,
  short: "Short of pressure",
  tool: "Tool",
  waiting: "Working days are being worked through …",
};
