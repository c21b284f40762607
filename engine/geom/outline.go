package geom

import "math"

// Area is the signed area of a closed outline in m²: positive where its corners
// go counterclockwise. An outline is closed without repeating its first corner.
func Area(outline []Flat) float64 {
	if len(outline) < 3 {
		return 0
	}
	total, o := 0.0, outline[0] // from the first corner, for figures far from the origin
	for i := 1; i+1 < len(outline); i++ {
		total += outline[i].Minus(o).Cross(outline[i+1].Minus(o))
	}
	return total / 2
}

// Bounds is the smallest upright rectangle around the places; ok is false
// without any.
func Bounds(places []Flat) (low, high Flat, ok bool) {
	if len(places) == 0 {
		return Flat{}, Flat{}, false
	}
	low, high = places[0], places[0]
	for _, p := range places[1:] {
		for i := range p {
			low[i], high[i] = math.Min(low[i], p[i]), math.Max(high[i], p[i])
		}
	}
	return low, high, true
}

// Contains says whether a place lies within a closed outline; the edge itself,
// to within Tiny, counts as within.
func Contains(outline []Flat, p Flat) bool {
	if len(outline) < 3 {
		return false
	}
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if NearestOnSegment(p.At(0), a.At(0), b.At(0)).Distance <= Tiny {
			return true
		}
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])*(b[0]-a[0])/(b[1]-a[1]) {
			in = !in
		}
	}
	return in
}

// CrossesItself gives two edges of a closed outline that meet elsewhere than at
// the corner that they share: i and j are their first corners. It compares each
// pair, which for the corners of a room is quick enough.
func CrossesItself(outline []Flat) (i, j int, crosses bool) {
	n := len(outline)
	for i := range n {
		for j := i + 1; j < n; j++ {
			a, b, c, d := outline[i], outline[(i+1)%n], outline[j], outline[(j+1)%n]
			switch {
			case j == i+1: // neighbours: only folding back onto each other is wrong
				if b.Minus(a).Cross(d.Minus(b)) == 0 && b.Minus(a).Dot(d.Minus(b)) < 0 {
					return i, j, true
				}
			case i == 0 && j == n-1:
				if a.Minus(c).Cross(b.Minus(a)) == 0 && a.Minus(c).Dot(b.Minus(a)) < 0 {
					return i, j, true
				}
			case SegmentsMeet(a, b, c, d):
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// SegmentsMeet says whether the segments ab and cd have a place in common.
func SegmentsMeet(a, b, c, d Flat) bool {
	side := func(p, q, r Flat) float64 { return q.Minus(p).Cross(r.Minus(p)) }
	within := func(p, q, r Flat) bool { // r on the line through p and q
		return math.Min(p[0], q[0]) <= r[0] && r[0] <= math.Max(p[0], q[0]) &&
			math.Min(p[1], q[1]) <= r[1] && r[1] <= math.Max(p[1], q[1])
	}
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	if (s1 > 0 && s2 < 0 || s1 < 0 && s2 > 0) && (s3 > 0 && s4 < 0 || s3 < 0 && s4 > 0) {
		return true
	}
	return s1 == 0 && within(a, b, c) || s2 == 0 && within(a, b, d) ||
		s3 == 0 && within(c, d, a) || s4 == 0 && within(c, d, b)
}

// Centre is the centre of area of an outline; for one without area the middle
// of its corners.
func Centre(outline []Flat) Flat {
	if len(outline) == 0 {
		return Flat{}
	}
	area, sum, o := Area(outline), Flat{}, outline[0]
	if math.Abs(area) < Tiny*Tiny {
		for _, p := range outline {
			sum = sum.Plus(p.Minus(o))
		}
		return o.Plus(sum.Times(1 / float64(len(outline))))
	}
	for i := 1; i+1 < len(outline); i++ {
		p, q := outline[i].Minus(o), outline[i+1].Minus(o)
		sum = sum.Plus(p.Plus(q).Times(p.Cross(q)))
	}
	return o.Plus(sum.Times(1 / (6 * area)))
}
