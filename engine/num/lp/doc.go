// Package lp solves linear programmes that are changed a little and solved again: the
// inner step of branching searches and of column generation.
//
// Main type: Program: least cost over non-negative columns under rows "at least" and
// "at most". In: rows, columns, later more of both. Out: values, multipliers, cost.
// Each row may also be bought off at a high price per unit (its penalty), so that
// every programme has an answer; a row that cannot be met shows in the cost.
// Method: revised simplex with an explicit inverse, the dual one with steepest-edge
// choice after rows and right sides changed, the primal one after columns came in.
// Sources: Forrest, Goldfarb 1992 (steepest edge); Chvátal 1983, ch. 7–10 (recalled).
// It is made for some hundred rows; it has no sparse factors, and it does not branch.
package lp
