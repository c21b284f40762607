// Package steiner finds the least-cost tree that joins given nodes of a graph, where
// a way that turns at a node may cost something.
//
// Main entry: Solve. In: a Problem of nodes, priced edges and terminals, the first of
// them the root; the context ends the work. Out: an Answer with the edges, their price,
// a bound that no tree goes below, and whether the two meet. What turns, tees and
// crossings cost is told at Problem. Whole numbers throughout: no rounding in a proof.
// Method: dual ascent (Wong 1984) for a bound, nearest paths with ruin and repair for a
// tree, elimination by reduced costs, then labels by node and subset (Dreyfus, Wagner
// 1971; set as Hougardy, Silvanus, Vygen 2017) or branch and bound. Sources recalled.
// It reads no clock and knows no trade.
package steiner
