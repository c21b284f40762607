// Package calc is the list of every formula that can be asked for one at a
// time, for the command line and for "where does this figure come from?".
//
// Main type: formula.Formula, each declared beside its law in the engine or
// beside its table in the catalogue. In: a name ([Find]); out: the formula,
// with its symbols, range, sources and evaluation. Sources: those of each
// formula. It holds no law of its own and knows no job; it gives the growth
// formula the catalogue's materials, which the engine does not own.
package calc
