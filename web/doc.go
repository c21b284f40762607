// Package web carries the page that people see in their browser: the files under
// dist, built from the TypeScript under src and the files under static.
//
// In: nothing at run time. Out: [Files], a read-only file system whose root holds
// index.html. The server hands these files out as they are.
//
// dist is committed, so that Go alone builds the whole program; the command in
// dev/bundle writes it and the tests hold that it is what the sources give.
// licences.txt in it carries the licences of the libraries that it includes.
//
// This package does not serve, compress or name cache times.
package web
