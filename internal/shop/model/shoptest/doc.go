// Package shoptest makes small invented shops for the tests of model, demand,
// flow, study and whoever else needs a job with air in it.
//
// Main functions: Line (one tool at the end of one line, for figures by hand),
// Bench (a dead-end main with three drops), Ring (any number of drops on a ring
// main), Drawn (any number of drops on a ring drawn along the walls of a hall).
// In: a few figures. Out: a *job.Job of the caller's own to change.
// Nothing here is a source of figures: rows come from the built-in catalogue.
package shoptest
