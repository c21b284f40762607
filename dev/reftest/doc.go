// Package reftest holds the outside reference tables against the laws.
//
// Main types: Row, one row of a table of testdata/ref; Law, what of the program
// answers a row, with the explanations of what it answers differently; Result,
// a row judged. In: the tables, as they stand, and the networks and cycles of
// testdata/ref/bench. Out: Judge, from which both the test of this package and
// docs/validation.md are made, so that a figure cannot be shown and not held.
//
// Every row either has one law or a reason in later.go why none. A row that was
// read and misses its tolerance without an explanation fails; a recalled row
// never does; a computed row proves arithmetic and no physics. Nothing here
// computes air: the evaluators only call the packages that do.
package reftest
