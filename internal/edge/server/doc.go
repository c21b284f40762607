// Package server shows a job in the browser of the same computer.
//
// Main type: Server; New takes Options (the source of the job, where to listen),
// Run serves until its context ends. In: the bytes of one job file, read again
// whenever its stamp changes. Out: the page (package web) and its resources as
// JSON, one file each here: job, scene, outlets, path, things, findings,
// questions, parts, and events, which tell of a new revision of the file.
//
// Answers are worked out when they are first asked for and kept for the revision
// (package study does it). The last revision that could be read stays and is
// marked old while the file cannot be read. Sources: RFC 9110 and RFC 9457 for
// the protocol, the HTML standard for server-sent events. It listens on the
// loopback only, answers no other host name or origin, writes nothing and
// prints nothing.
package server
