// Command checks writes docs/checks.md from the list of package check.
//
// In: check.All: code, title, reason, limit, law and sources of each check. Out:
// one page for people, in the order of the list; with -check it compares instead
// of writing. It runs no check.
package main

//go:generate go run dropleg/dev/gen/checks
