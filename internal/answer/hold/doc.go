// Package hold tells how the lines of a job stay put: where clips and hangers sit,
// which of them hold fast and which let the line slide, what they and the outlets are
// fixed to, where growth goes and where it cannot, and whether bends have their room.
//
// [Of] takes a job, the catalogue that it is read by and how warm the lines get, and
// gives an [Answer]. Each figure names its rule, each rule its source; what nobody
// publishes is marked as common practice, what is not known stays unknown.
//
// Sources: the catalogue's spacings, radii and materials; engine/solid for growth,
// legs and pushes; rules.go for the rest. It words nothing, prices nothing, and does
// not count what the take-off counts.
package hold
