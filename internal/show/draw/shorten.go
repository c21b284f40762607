package draw

import (
	"math"
	"slices"

	"dropleg/engine/geom"
)

// The measures of a drawing that is shortened where only straight line passes.
const (
	keptFree = 24.0 // mm of paper that are left at least between two places: the words of a line need them
	overDrop = 22.0 // mm that are left beyond what hangs down from one line into the next, for words
	breakGap = 2.4  // mm of them in which the line is broken
	leastCut = 1.5  // m that must be free for a cut
	worthCut = 1.5  // times as far on paper as is left, from where on a cut is worth its mark
)

// shorter is a rising map along one axis of the plan: of slope one wherever something stands,
// and less in slabs in which nothing does.
type shorter struct{ slabs []slab }

// slab is a stretch of an axis, m, and how long it is drawn.
type slab struct{ from, to, drawn float64 }

// at is where a place along the axis is drawn.
func (s *shorter) at(v float64) float64 {
	cut := 0.0
	for _, b := range s.slabs {
		switch {
		case v <= b.from:
			return v - cut
		case v < b.to:
			return b.from - cut + (v-b.from)*b.drawn/(b.to-b.from)
		}
		cut += b.to - b.from - b.drawn
	}
	return v - cut
}

// shortened is what a map along an axis is made of.
type shortened struct {
	places   []float64
	inclined [][2]float64 // stretches that run along no axis
	across   []float64    // where lines run along the other axis of the plan
	high     float64      // of the net, m
}

// left is how many mm of paper are left between two places. In the view a line lies above the
// next as far as they are apart: what hangs from it should not hang into that.
func (s *shortened) left(a, b, perMetre float64) float64 {
	before, after := math.Inf(-1), math.Inf(1)
	for _, v := range s.across {
		if v <= a+geom.Tiny {
			before = max(before, v)
		}
		if v >= b-geom.Tiny {
			after = min(after, v)
		}
	}
	return max(keptFree, overDrop+(s.high-(a-before)-(after-b))*perMetre)
}

// shorten finds the slabs between places, at mm of paper to the metre; none lies where a stretch
// runs inclined.
func (s *shortened) shorten(perMetre float64) shorter {
	slices.Sort(s.places)
	var out shorter
	for i := 1; i < len(s.places); i++ {
		a, b := s.places[i-1], s.places[i]
		if b-a < leastCut || (b-a)*perMetre < worthCut*keptFree {
			continue
		}
		if slices.ContainsFunc(s.inclined, func(in [2]float64) bool { return in[0] < b && in[1] > a }) {
			continue
		}
		left := s.left(a, b, perMetre)
		if (b-a)*perMetre < worthCut*left {
			continue
		}
		side := (left - breakGap) / 2 / perMetre
		out.slabs = append(out.slabs, slab{a + side, b - side, breakGap / perMetre})
	}
	return out
}

// plot is the map of both axes of a plan.
type plot [2]shorter

func (f *plot) point(p geom.Point) geom.Point { return geom.Point{f[0].at(p[0]), f[1].at(p[1]), p[2]} }
func (f *plot) flat(p geom.Flat) geom.Flat    { return geom.Flat{f[0].at(p[0]), f[1].at(p[1])} }

// plotted finds what of a shop can be drawn shorter.
func plotted(g Given, perMetre float64) plot {
	var in standing
	low, high := math.Inf(1), math.Inf(-1)
	j := g.Index.Job()
	for i := range j.Net.Points {
		if at, ok := g.Index.Where(&j.Net.Points[i]); ok {
			in.put(at)
			low, high = min(low, at[2]), max(high, at[2])
		}
	}
	for i := range j.Net.Runs {
		line := g.Index.Centreline(&j.Net.Runs[i])
		for k := 1; k < len(line); k++ {
			in.line(line[k-1], line[k])
		}
	}
	for _, r := range j.Building.Rooms {
		for i, c := range r.Outline {
			in.way(c.At(0), r.Outline[(i+1)%len(r.Outline)].At(0))
		}
	}
	for i := range j.Building.Walls {
		in.way(j.Building.Walls[i].From.At(0), j.Building.Walls[i].To.At(0))
	}
	if w := g.Work; w != nil {
		for _, c := range w.Cuts {
			in.put(c.A)
			in.put(c.B)
		}
		for _, n := range w.Joints {
			in.put(n.At)
		}
	}
	for k := range 2 {
		in[k].high = max(high-low, 0)
	}
	return plot{in[0].shorten(perMetre), in[1].shorten(perMetre)}
}

// standing is what stands along the two axes of a plan.
type standing [2]shortened

func (s *standing) put(p geom.Point) {
	for k := range 2 {
		if finite(p[k]) {
			s[k].places = append(s[k].places, p[k])
		}
	}
}

func (s *standing) way(a, b geom.Point) {
	s.put(a)
	s.put(b)
	inclined := slanting(a, b)
	for k := range 2 {
		if inclined {
			s[k].inclined = append(s[k].inclined, [2]float64{min(a[k], b[k]), max(a[k], b[k])})
		}
	}
}

// line is way for a stretch of a line, beside which others have to stay clear.
func (s *standing) line(a, b geom.Point) {
	s.way(a, b)
	for k := range 2 {
		if long := math.Abs(a[1-k] - b[1-k]); long > 0.5 && long > math.Abs(a[k]-b[k]) {
			s[k].across = append(s[k].across, a[k], b[k])
		}
	}
}

// slanting says whether a stretch runs along no axis: one that falls as lines are laid to fall
// still runs level.
func slanting(a, b geom.Point) bool {
	const aside, falling = 0.02, 0.06
	d := b.Minus(a)
	x, y, z := math.Abs(d[0]), math.Abs(d[1]), math.Abs(d[2])
	long := max(x, y, z)
	if long < 1e-6 || z == long && max(x, y) < 0.05 {
		return false
	}
	return z == long || min(x, y) > aside*long || z > falling*long
}
