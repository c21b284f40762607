// Package cite is the bibliography: one table of every source that a law, a
// catalogue row or a limit of this program leans on.
//
// In: sources.json, embedded. Out: Source by ID, and the text of a reference
// for people. Main types: Source, Ref (a source and the place in it), How
// (whether the figure was read there, recalled, computed or is common practice).
// A Ref without a known ID is an error of whoever wrote it; the tests of the
// packages above find it with Lookup.
// It holds no figures and quotes no text; those stand where they are used.
package cite
