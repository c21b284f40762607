// Package citetest reads the published tables kept in testdata/ref for the tests of
// whoever holds a law against them.
//
// Main entry: Rows. In: the name of a table. Out: its rows by column names; a table
// that is not there or cannot be read fails the test. It judges nothing.
package citetest
