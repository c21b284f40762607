// Package cure tries changes on a study and keeps those that help somebody and
// hurt nobody.
//
// Main type: [Bench], a study with what was tried on it. [Bench.Try] puts edits
// to the network and gives a [Trial]: what each tool gains, set by set, and who
// would become short by it. [Bench.For] finds the changes that give a tool the
// pressure it lacks: the next bore of hose, coupler, line or treatment part on
// its way, a regulator's setting, the compressor's cut-in.
//
// In: a study and its flows. Out: cures of package job, each solved again. No
// sources of its own. It decides nothing: who applies an edit is the person.
package cure
