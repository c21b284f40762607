// Package screen says what the page shows: answers of a study as rows, sentences
// and drawings, worded in the person's units.
//
// Main type: Shop, one revision of a job with its study; its methods give one
// resource of the page each (Head, Questions, Plan, Outlets, Way, Thing,
// Findings, Parts). Page is what a window shows at once after an edit, Live what
// changed on it, Compare alternatives side by side. In: a study, the findings on it and an Ask (set of running
// tools, end of the pressure band, units). Out: values that encode to JSON as
// they stand; package server hands them out and the page's TypeScript types are
// generated from them. Sources: none of its own; every figure carries the law
// and source it was worked out by. It computes no physics, keeps nothing and
// knows no HTTP.
package screen
