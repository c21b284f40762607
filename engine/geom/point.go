// CONTRACT: points in metres; everything else of geom is built on them.

package geom

// Point is a place in the shop in metres: x along, y across, z up from the datum.
type Point [3]float64

// Flat is a place on a plan or on an unrolled wall, in metres.
type Flat [2]float64
