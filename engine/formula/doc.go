// Package formula holds laws that can be asked for one at a time.
//
// Main type: Formula, declared beside the law that it tells. In: arguments such
// as "bore=3/4in", read by the kinds of the formula's symbols; out: Values in
// SI, as text in a system of units, or as one JSON object whose keys name
// their units. Everything wrong with the arguments is told at once, as Problems.
// Sources: each Formula cites its own.
// It knows no air: a flow stays the FlowReading that was typed, with its
// reference, until the Eval of a formula converts it.
package formula
