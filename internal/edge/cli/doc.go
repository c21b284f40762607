// Package cli is the command line: the engine without the browser, for people
// who script, for checks in version control and for the tests.
//
// [Run] takes the arguments and the [Streams] of one call and gives its exit
// status: 0 all well, 1 the design falls short, 2 the input cannot be used, 3
// the program could not do its work. One file a command, each thin: read, ask a
// study, write. Results go to standard output, everything else to standard
// error; --json writes one document with units in its keys.
//
// It computes nothing. Words are in English, figures in the person's units,
// drawings in the width of the terminal, in plain letters where it has no more.
package cli
