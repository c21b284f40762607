// Package start makes a whole first job out of five answers: the room, the
// compressor, the tools, the places where air is wanted, the budget.
//
// The main type is Answers, read by Parse; Of gives the Plan: a job with room,
// plant, outlets, lines laid by package route and sized by package size, with every
// assumption in words and what it comes to. Existing gives the same as an installation
// that stands, Empty a room alone, Offer what the five questions offer. In go answers and
// the catalogue; what cannot be built is a *job.Refusal that tells all of it at once.
//
// Plant and outlets stand by the custom of the trade (practice.go), drawn by the gestures
// of package fit. It has no prices of its own and buys nothing.
package start
