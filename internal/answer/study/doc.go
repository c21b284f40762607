// Package study is the one door to everything computed from a job.
//
// A [Study] is one revision of a job with the catalogue it is read by. It is
// immutable and safe for concurrent use; each answer is computed on first
// asking and kept, failure too unless it was cancelled. [Study.After] gives
// the study of the job after an edit; it keeps what the edit cannot have
// changed and hands the pressures found so far to the solver as a start.
// [Study.State] answers one set alone, for a drawing that must follow the hand.
//
// It has methods that return answers and nothing that acts: no findings, no
// edits, no output. Sources: none of its own.
package study
