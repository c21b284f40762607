// Package example holds the built-in example jobs: four invented shops, drawn to
// scale, that between them use every part of the document.
//
// [All] lists them in a fixed order, [Read] gives one as the job file that it is,
// [Nearest] the name that was likely meant. In: nothing. Out: job files in the
// form that job.Encode writes.
//
// A boat shop whose one sander falls short, a frame builder's garage on one coil
// of composite pipe, a fabrication hall on a ring main, and a body shop that is
// ailing and has readings to show for it. Shops, towns, people and prices are
// invented; figures of tools and plant are those of the catalogue or, like a
// plate's, the shop's own. It solves nothing.
package example
