// Command validation writes three pages: docs/validation.md, what the program
// answers to every row of the reference tables; docs/formulas.md, every formula
// that can be asked for; docs/sources.md, the bibliography.
//
// In: package reftest, package calc and package cite. Out: Markdown, the same
// bytes each time; with -check it compares instead of writing. It computes
// nothing and judges nothing: a row is here what it is in the test of reftest,
// down to the sentence that says why it differs.
package main

//go:generate go run dropleg/dev/gen/validation
