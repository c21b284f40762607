package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/show/scene"
)

// standing is what stands in a part, and its lines.
func (p *shopPart) standing() (all []geom.Point, legs []legged) {
	s := &p.site
	j := s.given.Index.Job()
	for i := range j.Net.Runs {
		legs = append(legs, s.legs(&j.Net.Runs[i])...)
	}
	for _, g := range legs {
		all = append(all, g.a, g.b)
	}
	for i := range j.Net.Points {
		if at, placed := s.given.Index.Where(&j.Net.Points[i]); placed {
			all = append(all, at)
		}
	}
	if s.given.Work != nil {
		for _, n := range s.given.Work.Joints {
			all = append(all, n.At)
		}
	}
	return all, legs
}

// slice cuts the shop across in as few parts as it takes, the largest as small as can be.
func (l *leafer) slice() bool {
	const most = 6
	all, legs := l.parts[0].standing()
	var across [2]*slicing
	for axis := range across {
		across[axis] = l.slicing(all, legs, axis)
	}
	for n := 2; n <= most; n++ {
		for axis, c := range across {
			cuts := c.evened(n)
			if cuts == nil {
				continue
			}
			var parts []shopPart
			at := everywhere()
			for _, cut := range append(cuts, math.Inf(1)) {
				own := at
				own.high[axis], at.low[axis] = cut, cut
				parts = append(parts, l.part(own, false))
			}
			if !slices.ContainsFunc(parts, func(p shopPart) bool { return p.scale < l.paper.Working }) {
				l.parts = parts
				return true
			}
		}
	}
	return false
}

// slicing is where a shop may be cut along an axis, and how crowded what lies between two of
// these is.
type slicing struct {
	edges []float64 // from −∞ to ∞
	cost  [][]float64
}

func (l *leafer) slicing(all []geom.Point, legs []legged, axis int) *slicing {
	far := math.Inf(1)
	s := &slicing{edges: append(append([]float64{-far}, cuttable(all, legs, axis)...), far)}
	sorted := slices.SortedFunc(slices.Values(all), func(p, q geom.Point) int { return cmp.Compare(p[axis], q[axis]) })
	first := make([]int, len(s.edges)) // of what lies beyond an edge
	for i, e := range s.edges {
		first[i], _ = slices.BinarySearchFunc(sorted, e, func(p geom.Point, e float64) int { return cmp.Compare(p[axis], e) })
	}
	s.cost = make([][]float64, len(s.edges))
	for i := range s.edges {
		s.cost[i] = make([]float64, len(s.edges))
		for k := i + 1; k < len(s.edges); k++ {
			s.cost[i][k] = l.crowding(sorted[first[i]:first[k]])
		}
	}
	return s
}

// evened are n−1 cuts that leave the largest of the n slices the least crowded (a dynamic
// programme over the last slice); nil where there are not so many.
func (s *slicing) evened(n int) []float64 {
	m := len(s.edges)
	if m < n+1 {
		return nil
	}
	best, from := make([][]float64, n+1), make([][]int, n+1)
	for i := range best {
		best[i], from[i] = make([]float64, m), make([]int, m)
		for k := range m {
			best[i][k] = math.Inf(1)
		}
	}
	best[0][0] = 0
	for k := 1; k < m; k++ {
		for i := range k {
			for j := 1; j <= n; j++ {
				if c := max(best[j-1][i], s.cost[i][k]); c < best[j][k] {
					best[j][k], from[j][k] = c, i
				}
			}
		}
	}
	var out []float64
	for j, k := n, m-1; j > 1; j-- {
		k = from[j][k]
		out = append(out, s.edges[k])
	}
	slices.Reverse(out)
	return out
}

// halves cuts a part in two where nothing stands, so that the larger half comes out largest.
func (l *leafer) halves(p *shopPart) (a, b window, ok bool) {
	all, legs := p.standing()
	least := math.Inf(1)
	for axis := range 2 {
		s := l.slicing(all, legs, axis)
		for k := 1; k+1 < len(s.edges); k++ {
			if cost := max(s.cost[0][k], s.cost[k][len(s.edges)-1]); cost < least {
				least, ok = cost, true
				a, b = p.own, p.own
				a.high[axis], b.low[axis] = s.edges[k], s.edges[k]
			}
		}
	}
	return a, b, ok
}

// cuttable are places along an axis at which a shop may be cut: between what stands, and where
// no line runs inclined.
func cuttable(all []geom.Point, legs []legged, axis int) []float64 {
	const free, most = 0.5, 16
	var places, cuts []float64
	for _, q := range all {
		places = append(places, q[axis])
	}
	slices.Sort(places)
	for i := 1; i < len(places); i++ {
		at := (places[i-1] + places[i]) / 2
		if places[i]-places[i-1] >= free && !slices.ContainsFunc(legs, func(g legged) bool {
			return slanting(g.a, g.b) && min(g.a[axis], g.b[axis]) < at && max(g.a[axis], g.b[axis]) > at
		}) {
			cuts = append(cuts, at)
		}
	}
	if len(cuts) <= most {
		return cuts
	}
	var some []float64
	for i := range most {
		some = append(some, cuts[i*len(cuts)/most])
	}
	return some
}

// crowding is how many times over things take the room of a leaf at the scale to work from.
func (l *leafer) crowding(all []geom.Point) float64 {
	if len(all) == 0 {
		return 0
	}
	var places [3][]float64
	for _, q := range all {
		for k := range 3 {
			places[k] = append(places[k], q[k])
		}
	}
	low, high := slices.Min(places[2]), slices.Max(places[2])
	net := high - low
	j := l.given.Index.Job()
	for i := range j.Building.Walls {
		w := &j.Building.Walls[i]
		low, high = min(low, float64(w.Floor)), max(high, float64(w.Floor+w.Height))
	}
	long := 0.0
	for k := range 2 {
		in := shortened{places: places[k], across: l.across[k], high: net}
		s := in.shorten(l.paper.Working)
		long += s.at(slices.Max(places[k])) - s.at(slices.Min(places[k])) + 2*l.tail()
	}
	across, up := long*0.866, long*0.5+high-low // of the axes, 30° off the level
	return max(across*l.paper.Working/l.sheet.Width, up*l.paper.Working/l.sheet.Height)
}

// keyParts are the edges between the parts on the key, with their numbers.
func (l *leafer) keyParts(now int, on func(scene.Point) scene.Point) []scene.Item {
	const size = 3.4
	var items []scene.Item
	for i, p := range l.parts {
		w := p.seen
		var edge []scene.Point
		for _, c := range []geom.Flat{w.low, {w.high[0], w.low[1]}, w.high, {w.low[0], w.high[1]}} {
			edge = append(edge, on(isometric(c.At(0))))
		}
		stroke := scene.Stroke{Width: 0.2, Color: "soft", Dash: []float64{2, 0.8}}
		fill := "paper"
		if i == now {
			stroke, fill = scene.Stroke{Width: 0.4, Color: "ink"}, "ink"
		}
		middle := mix(edge[0], edge[2], 0.5)
		ink := "ink"
		if fill == "ink" {
			ink = "paper"
		}
		plate := circle(2.6, 0.2)
		plate.Fill = fill
		items = append(items, scene.Item{Area: &scene.Area{Points: edge, Stroke: &stroke}},
			scene.Item{Mark: &scene.Mark{At: middle, Parts: []scene.Path{plate}}},
			bold(scene.Words("", trim(float64(i+1)), middle, scene.Point{0, -size * 0.35}, size, "middle", ink)))
	}
	return items
}
