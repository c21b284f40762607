// Package plan proposes a whole layout: where lines run, in which sizes, or both.
//
// Main entry: Propose. In: a study and a Wish, which says what may change. Out:
// Proposals, each one edit with the study after it, what it changes and what is
// proven of it; or an error that says what stands in the way, as findings. Lines
// come of package route, sizes of package size; what is laid here is sized before it
// is offered. It judges nothing (check does) and words no figures (screen does).
package plan
