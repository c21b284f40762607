// Command bundle turns the TypeScript under web/src into the files under
// web/dist, which the Go program embeds and which are committed so that Go alone
// builds it.
//
// In: web/src, web/static and the packages that web/package-lock.json pins,
// installed under web/node_modules. Out: web/dist, complete: whatever the sources
// do not give is removed. The type [output] is that folder in memory.
//
// With -check nothing is written: the command compares web/dist with what the
// sources give, byte for byte, and holds the page's import order (see layers.go).
//
// It does not check types and does not lint; make does both with other tools.
package main
