// Package output writes generated files, or says which are not what they would be.
//
// Main entry: Main, the whole of a generator's main function; Run, the same for a
// test. In: the files with their text, made for the repository's root. Out: the
// files, or with -check an error that names the first that differs. It knows
// nothing of what it writes.
package output
