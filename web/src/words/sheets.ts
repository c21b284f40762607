// The page's own words about sheets on paper.

export const sheetWords = {
  title: "Sheets",
  lead: "Drawings and lists to build from, as they come out of the printer.",
  asking: "Looking what there is …",
  drawing: "Drawing the sheet …",
  which: "Which sheets",
  all: "all",
  none: "none",
  for: "for",
  look: (audience: string, title: string) => `for ${audience}: look at ${title}`,
  paper: "Paper",
  by: "Your name or firm",
  mark: "Letters of your mark",
  revision: "Revision",
  leaf: (n: number, all: number) => `leaf ${n} of ${all}`,
  before: "Leaf before",
  after: "Leaf after",
  missing: (what: string) => `Nothing on it: it needs ${what}.`,
  book: "Job book (PDF)",
  one: "This sheet (PDF)",
  zip: "All files (ZIP)",
  zipNote:
    "PDF and SVG of each sheet, plan and walls in true size as DXF, lists as CSV and as one workbook, and the job file.",
  print: "Open to print",
} as const;
