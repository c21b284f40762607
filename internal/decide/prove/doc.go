// Package prove plans the tests of a job and reads the records of those that were made.
//
// [Of] takes a study and gives an [Answer]: the [Section]s between valves and plant with
// test pressure, stages, stored energy, the distance to keep and what is to be isolated; a
// leak test at working pressure where the room is smaller than that distance; each joint
// and each outlet with what was found; the tests made with their [Verdict]; what was
// checked and what was not. [Judge] takes one test alone.
//
// Sources: test pressures and stored energy as engine/vessel and the rules here name them.
// It never says that a line is safe, approves no test, and draws and words nothing.
package prove
