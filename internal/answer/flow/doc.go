// Package flow says what pressure and flow every tool gets, for every set of
// tools that may run together.
//
// [Of] solves each set of package demand twice: at cut-in with loaded filters
// (is it enough?) and at cut-out, clean (what stands beside it). An [Answer]
// holds per set the state of tools, outlets, elements and sources, the path
// from the source to each running tool with the loss of every element on it,
// and per tool its worst set. Where a tool is close to its least pressure, two
// more solves give the plausible range.
//
// Sources: those of the laws and rows. It finds no fault: that is package check.
package flow
