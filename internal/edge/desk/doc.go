// Package desk is where jobs lie open: several people change them at once, and
// every change that is acknowledged stands on the disk.
//
// Main types: [Desk], and [Work], one job lying open. In: edits made against a
// revision. Out: the [study.Study] of each revision, words for undo and redo, the
// history. An edit made on an older revision is made again on the present one, or
// refused with a [Conflict] where somebody else has changed the same. Undo, redo
// and going back follow the log of steps, so that they outlast the program. Where
// the store fails, work goes on in memory, is told so, and is saved later.
//
// Sources: none. It computes nothing about air, draws nothing, knows no gestures,
// and has no opinion on a design.
package desk
