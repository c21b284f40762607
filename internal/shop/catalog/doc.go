// Package catalog holds the shelves: kinds of parts, ways of joining, stocks,
// couplers, hoses, tools, machines, treatment, threads, take-outs, materials.
//
// Main type: Catalog, a set of shelves with lookups. Builtin gives the embedded
// one; With puts a person's own rows on top and tells which they replace.
// In: the data files under data/, one kind, joint or stock a file. Out: rows by
// id, ratings at temperature, loss coefficients, take-outs, whether a plug mates.
// Sources: each row names its own, read or recalled, by the ids of package cite;
// a test compares each figure with the reference tables.
// It does not know networks: a kind's law is a name and figures, and package
// model makes an element of it. It asks nothing of a job.
package catalog
