// Package quote reckons what a job costs to have done: hours by kind of joint, metre,
// support, outlet and part of the plant; material; margin and tax; and the variation
// between two states of one job.
//
// Main entry: [Of]; [Vary] for what a change comes to. In: a job, its take-off, supports
// and purchase. Out: an [Answer] of lines that add up to the hundredth. Times that the job
// does not state are custom.go's: common practice without a source.
// It makes no document and sets no terms; local law on quotations and tax rules.
package quote
