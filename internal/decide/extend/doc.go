// Package extend says what happens when something is added to lines that stand: an outlet with
// a tool, an outlet for later, or another compressor.
//
// Main type: Proposal, by Propose. In: the study of what stands and a Wish. Out: alternatives,
// each an edit of the job with the lines laid from a tie-in, their sizes, everything that must
// grow with it (main, drop legs, hoses, compressor, receiver, dryer, filters, regulators), what
// stays open, and which valves shut off the place where the line is opened. Method: package
// route lays from what stands, size picks, check finds what was not found before and its own
// cures are taken until none is left that helps. A second compressor is stood on free floor
// beside the first and joins its delivery line before what cools, dries or stores.
package extend
