// Package start makes a whole first job out of five answers: the room, the
// compressor, the tools, the places where air is wanted, the budget.
//
// The main type is Answers, read by Parse; Of gives the Plan: a job with room,
// plant, a main round the walls and a drop leg at each place, and every
// assumption in words. Existing gives the same as an installation that stands,
// Empty a room alone, Offer what the five questions offer. In go answers and the
// catalogue; what cannot be built is a *job.Refusal that tells all of it at once.
//
// All that is drawn is drawn by the gestures of package fit; sizes are found by
// trying, each try solved by package study. The pattern is the trade's custom
// (see pattern.go). It routes nothing round obstacles and buys nothing.
package start
