// Package check judges a design and says what of it falls short.
//
// Main type: [Check], one rule of the trade, of a standard or of the law, with
// its reason, its limit and its source. [All] lists them; [Run] puts a study to
// each and returns findings, worst first, in the person's units, with cures
// that are edits.
//
// In: a study. Out: findings of package job. Sources stand in each check; a
// rule without one is custom of the trade and says so. A check asks roles, ports
// and laws of a part and never its kind. It changes nothing, sizes nothing, and
// never says that a shop is without danger: only what was looked at.
package check
