// The page's own words about how the lines are held.

export const holdWords = {
  along: "Along",
  answer: "How the lines are held",
  bends: "Bends in the line",
  fixed: "fixed",
  fixings: "Fixing to the building",
  growth: "What grows, and where it goes",
  legs: "Where it moves",
  level: "level",
  marks: "Marks on the walls",
  marksNote:
    "Walls as one turns right. Along from the wall’s first corner, up from its floor, to the middle.",
  missing: "What is missing",
  onDrawing: "On the drawing a tick marks a support that slides, a block one that holds fast.",
  perLine: "Line by line",
  pull: "At outlets:",
  screws: "Supports:",
  sliding: "sliding",
  supports: "Supports",
  up: "Up",
  upright: "upright",
  wait: "The supports are being placed …",
  what: "What",
};
