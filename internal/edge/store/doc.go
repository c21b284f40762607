// Package store keeps jobs on disk, in one SQLite file, so that what was
// acknowledged is still there after a kill or a power cut.
//
// Main type: [Store]; [Open] makes or brings up to date the file, [Path] says
// where it lies by default. In: bytes of documents, edits, thumbnails and
// pictures, and the times at which things happened. Out: the same bytes. A job
// is a document at some revision, the steps after it, and snapshots that make
// loading short; whoever calls decides when one is due. Failures of disk and
// locks come out as [Trouble], in people's words.
//
// Sources: SQLite's pages on WAL, PRAGMA and VACUUM INTO. It knows nothing of
// what the bytes mean, merges nothing, asks no clock, and holds nothing in
// memory when the disk fails. It is for local disks: WAL does not work on a
// network share.
package store
