// Command gen writes the page's TypeScript types from the Go types that the
// server sends: web/src/api/types.gen.ts.
//
// In: the resource types of package server, by reflection. Out: one TypeScript
// interface for each struct reached from them, sorted by name; with -check it
// compares instead of writing. What encoding/json would leave out (json:"-",
// fields not exported) is left out; a slice is never null because the server
// sends empty lists. It knows only what those types use: a kind of field it
// does not know is an error, never a guess.
package main
