// Package server shows the jobs of a desk in the browser, and takes what the hands
// there do.
//
// Main type: Server; New takes Options (the desk, where to listen, which jobs follow
// a file), Run serves until its context ends. In: edits, gestures, job files and
// pictures. Out: the page (package web) and its resources as JSON, one file each
// here; live tells what an edit changed on the drawing and no more. Bodies are the
// types of rows.go and wire_*.go, from which the page's types are generated.
//
// Answers are worked out when they are first asked for and kept for the revision
// (package study does it). A file that cannot be read any more leaves its job as it
// was, marked old. Sources: RFC 9110 and RFC 9457 for the protocol, the HTML standard
// for server-sent events, RFC 9649 for the head of a WebP picture, ISO/IEC 18004 for
// the margin of a QR code. It listens on the loopback, or on the local network for
// those who bring its token; it answers no other host name or origin, keeps nothing
// itself, knows no law of air, and prints nothing.
package server
