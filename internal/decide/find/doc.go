// Package find says why a shop is weak: which element of the line is
// restricted or leaks, which regulator is not set as drawn, which tool asks for
// more or which compressor gives less than its plate; or that nothing of all
// that is so.
//
// Main type: Finder, a study with the readings so far; Add takes a reading,
// Answer ranks the causes and proposes the reading that would part them best.
// In: a study, or a chain of main parts that becomes a job; readings of gauges and
// clocks, and what looks at things showed: what was mended explains the readings before it.
// Out: causes with their chance and size. Method: each cause is solved through the network at a ladder of
// sizes; what is not known of a sound shop (roughness, losses, tools, small
// leaks, gauges) is carried along by the network's sensitivities, so that every
// size has a Gaussian prediction of all readings together; Bayes' rule weighs
// them. Sources: the laws of the network; the weights of causes before any
// reading are common practice, no source. It mends nothing and judges no design.
package find
