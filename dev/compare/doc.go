// Package main writes docs/laid-out.md: for each built-in shop, its lines taken away, and
// for rooms that were laid by hand first, the proposed plan beside the hand-made one.
//
// Main types: shop, one job; figures, what a plan of it comes to: price, pressure, metres,
// pieces, bends. In: the examples and the job files of rooms. Out: the table. The rooms were
// drawn after routing and sizing were finished, and nothing was fitted to them. Prices are
// those of each job, all lines counted as new, work at its rate or the usual one.
package main
