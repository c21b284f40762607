package model

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// straight is the turn in degrees under which a corner of a drawn path is none.
const straight = 5.0

// anyLength stands for a line that has neither drawing nor length.
const anyLength = 5.0 // m

// lengthOf is a run's length; where neither drawing nor figure tells it, a
// guess that is reported.
func (b *builder) lengthOf(r *job.Run) float64 {
	if l, known := b.idx.LengthOf(r); known {
		return math.Max(0, float64(l))
	}
	b.trouble("length-unknown", job.Caution, fmt.Sprintf("the length of %s is not known; %s are assumed", r.ID, b.long(anyLength)),
		"its loss goes with its length", r.ID)
	return b.assume(Assumption{ID: r.ID, Words: "length: neither drawn nor stated", Key: "length_m", Value: anyLength, Low: 1, High: 20, Ref: custom})
}

// corners lists the turns of a run's path in degrees. A run that states its
// length has none: what its corners cost is not known and left out.
func (b *builder) corners(r *job.Run) []float64 {
	if r.Length != nil {
		return nil
	}
	line := b.idx.Centreline(r)
	var out []float64
	for i := 1; i+1 < len(line); i++ {
		if d := turned(line[i-1], line[i], line[i+1]); d > straight {
			out = append(out, d)
		}
	}
	return out
}

// turned is the change of direction at b on the way from a to c, degrees.
func turned(a, b, c geom.Point) float64 {
	var dot, u, v float64
	for k := range 3 {
		x, y := b[k]-a[k], c[k]-b[k]
		dot, u, v = dot+x*y, u+x*x, v+y*y
	}
	if u == 0 || v == 0 {
		return 0
	}
	return math.Acos(math.Max(-1, math.Min(1, dot/math.Sqrt(u*v)))) * 180 / math.Pi
}

// zoneOfRun is the zone a run lies in; "" where none is known.
func (b *builder) zoneOfRun(r *job.Run) job.ID {
	if z := b.idx.ZoneOf(r); z != nil {
		return z.ID
	}
	return ""
}

// zoneOfPoint is the zone a point lies in; "" where none is known.
func (b *builder) zoneOfPoint(pt *job.Point) job.ID {
	if at, ok := b.idx.Where(pt); ok {
		if z := b.idx.ZoneAt(at); z != nil {
			return z.ID
		}
	}
	return ""
}
