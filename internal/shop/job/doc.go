// Package job is the document of one shop: site, building, air net, outlets,
// tools, work, rules, prices, alternatives and records, in SI, each thing with an
// id that lives for ever.
//
// Main type: Job. In: JSON (Parse) and edits (Add, Remove, Change, Move, Connect,
// Split, All, Within). Out: JSON (Encode, Schema), findings on the document (Validate),
// an Index that knows things by id and where they are. Edits return a new Job
// that shares what did not change, and the edit that undoes them; Touches tells
// what they write, Variant gives an alternative as a job of its own.
//
// An id that was removed goes to Job.Retired and is refused to new things; only
// undo gives it back. Sources: the rules' defaults say theirs (rules.go). It
// computes no flow, no price and no opinion on the design, and reads no foreign
// file.
package job
