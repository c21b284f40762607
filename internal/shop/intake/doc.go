// Package intake reads a supplier's price list into offers and prices of a job.
//
// Main entries: [Read] and [Of]. In: the bytes of a list (CSV in any of its dialects,
// XLSX), what the person says of its columns ([Ask]), and the articles that the job and
// the catalogue know ([Shelf]). Out: an [Intake], row by row what it would be taken for,
// what is a question with proposals, and what cannot be used and why; and from it one
// edit ([Intake.Edit]) of the rows that are sure.
//
// A row that is not sure is never taken: it waits for the person's answer. Nothing is
// dropped without being told. The words of columns and units are those of the trade,
// common practice without a source; XLSX as ECMA-376 has it. It opens no file and knows
// no screen, and it does not work out what to buy.
package intake
