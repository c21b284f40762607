// Package page is lists as documents: tables with heads and figures, written as CSV and as
// workbooks.
//
// Main type: [Sheet]. In: columns with what stands in them, rows of texts and
// numbers. Out: CSV after RFC 4180; XLSX after ECMA-376, where products and totals are
// formulas with their values. The same sheet gives the same bytes. A text that a
// spreadsheet would take for a formula is kept a text. It knows no job and decides nothing
// about what is listed.
package page
