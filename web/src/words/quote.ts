// The page's own words about a quotation.

export const quoteWords = {
  title: "Quotation",
  wait: "The quotation is being reckoned …",
  work: "Work",
  hours: "Hours",
  hour: "h",
  each: "min each",
  metre: "min a metre",
  eachOf: (what: string) => `minutes each: ${what}`,
  noMinutes: "Minutes, as 7.5; empty for the usual time",
  altogether: "Altogether",
  rates: "Hour, margin and tax",
  change: "What has changed since",
  nothing: "not asked",
  beginning: "the beginning",
  asItStands: "the job without this alternative",
  older: "Earlier steps",
  firm: "Your name or firm",
  take: "To take away:",
  files: [
    ["quote.csv", "work as CSV"],
    ["quote.xlsx", "workbook"],
  ] as const,
  print: "Print the quotation",
  printChange: "Print the variation",
} as const;
