// Package model turns a job into a network of element laws and the answers of
// that network back into the job's own ids.
//
// [Build] reads the job once: every port of a part is a node, every run, part,
// coupler and hose is an [Element] with the law that its catalogue row names
// (never its kind), every tool at an outlet is a [Pair] with an end of its own.
// [Model.NewSolver] compiles the network once; [Solver.Solve] answers one
// [Case] (who runs, at what receiver pressure, clean or loaded, likely or
// worst figures) and starts from its last answer.
//
// Every figure that was missing is an [Assumption] with its range. Sources:
// those of the laws (engine/element) and of the catalogue rows. It judges
// nothing: limits and cures belong to the checks, time to package day.
package model
