package geom

import "math"

// Bend is a sweep of a line round a corner with a centre-line radius.
type Bend struct {
	Radius float64 // m, of the centre line
	Turn   float64 // rad, 0..π
}

// Tangent is the length of each straight leg that the sweep takes up, from the
// corner to where the arc begins: T = r·tan(θ/2). It grows without bound as the
// line turns back on itself; at a full turn it is +Inf, which no leg can hold.
func (b Bend) Tangent() float64 {
	if b.Turn >= math.Pi {
		return math.Inf(1)
	}
	return b.Radius * math.Tan(b.Turn/2)
}

// Arc is the length of the centre line within the sweep: r·θ.
func (b Bend) Arc() float64 { return b.Radius * b.Turn }

// Saved is by how much the swept line is shorter than the two legs to the
// corner: 2T − rθ.
func (b Bend) Saved() float64 { return 2*b.Tangent() - b.Arc() }

// Offset is how far the arc passes inside the corner: r·(1/cos(θ/2) − 1).
func (b Bend) Offset() float64 {
	if b.Turn >= math.Pi {
		return math.Inf(1)
	}
	return b.Radius * (1/math.Cos(b.Turn/2) - 1)
}

// Fits says whether sweeps of a radius fit all corners of a polyline, and gives
// the largest radius that does; +Inf without corners. Two corners share the leg
// between them.
func Fits(path []Point, radius float64) (largest float64, ok bool) {
	corners := Corners(path, 1e-3)
	largest = math.Inf(1)
	total := Length(path)
	for i, c := range corners {
		before, after := c.Along, total-c.Along
		factor := math.Tan(math.Min(c.Turn, math.Pi) / 2)
		shareBefore, shareAfter := factor, factor
		if i > 0 {
			before -= corners[i-1].Along
			shareBefore += math.Tan(corners[i-1].Turn / 2)
		}
		if i+1 < len(corners) {
			after = corners[i+1].Along - c.Along
			shareAfter += math.Tan(corners[i+1].Turn / 2)
		}
		largest = math.Min(largest, math.Min(before/shareBefore, after/shareAfter))
	}
	return largest, radius <= largest
}

// Swept is the length of a polyline with each corner swept at a radius, in m.
// Corners that turn back by more than 170 degrees keep their two legs: no sweep
// makes them.
func Swept(path []Point, radius float64) float64 {
	l := Length(path)
	for _, c := range Corners(path, 1e-3) {
		if c.Turn < 170*math.Pi/180 {
			l -= Bend{Radius: radius, Turn: c.Turn}.Saved()
		}
	}
	return math.Max(l, 0)
}
