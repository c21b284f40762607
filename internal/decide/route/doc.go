// Package route proposes where lines run: "here is my room, my compressor and my tools".
//
// Main entry: Propose. In: a study.Study and a Wish; ctx ends the search. Out: Proposals,
// each one edit that draws lines with all fittings, with length, price, what no layout
// goes below, and what was assumed, in words. Reach proposes where outlets hang, by the
// sides of what is worked on and the length of a hose. Method: a graph of the places
// where lines may run, along walls, under ceilings and through walls, and the least tree
// over it (engine/num/steiner); practice and prices that nobody states are common
// practice, each with its words (price.go, practice.go). Gestures of fit draw it.
// It picks no sizes (size does) and judges no design (check does).
package route
