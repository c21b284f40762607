// Package size picks the cheapest sizes of lines, hoses, couplers and treatment by which
// every tool has its pressure, in the velocities of the rules and within the ratings.
//
// Main entry: [Propose]. In: a study and a [Wish]: what may change, of which stocks. Out:
// [Proposal]s, each a whole edit with its price, what nothing costs less than, the least
// pressures, what changed; or a [NoneError] that says what else must change.
//
// Sizes are picked by package tree for the rated flows of all sets of tools that the
// flows know and of later tools on their stubs; then the study after the edit is solved
// with flows that follow pressure and worked through days of a fresh seed, and what falls
// short tightens the pick. Sources: none of its own, laws are the model's.
package size
