// Package mip solves integer programmes exactly: least cost over bounded columns,
// some or all of them whole numbers, under rows with a lower or an upper limit.
//
// Main entry: Solve. In: a Problem; the context and Options.Nodes end the work.
// Out: a Result with the best point found, its value and a bound proved on every
// point. Same input, same answer; no clock is read. Method: dual simplex on a dense
// dictionary, mixed-integer rounding cuts at the root, branch and bound with
// pseudo-costs. Bounds are summed afresh from the rows, never read off the
// dictionary. Sources (recalled): Gomory 1960; Marchand, Wolsey 2001 (rounding);
// Achterberg 2005 (branching); Neumaier, Shcherbina 2004 (safe bounds). It is made
// for some hundred rows and columns; it has no sparse factors and knows no trade.
package mip
