package page

import (
	"math"

	"dropleg/internal/show/scene"
)

// mark draws on the whole which part is on which leaf.
func (c *composer) mark(s *scene.Scene, over Scale, t tiling) {
	at := c.now().laid[len(c.now().laid)-1].At
	k := over.PerMetre()
	for row := range t.rows {
		for column := range t.columns {
			if !t.kept(row, column) {
				continue
			}
			low, high := t.window(row, column)
			a, b := scene.Point{at[0] + low[0]*k, at[1] + low[1]*k}, scene.Point{at[0] + high[0]*k, at[1] + high[1]*k}
			wide, tall := scene.PrintWidth(tileName(row, column), headType, false)+2, headType+2
			corner, least := scene.Point{}, math.MaxInt
			for _, q := range t.plates(row, column, a, b, wide, tall) {
				if n := covered(s, k, at, q, scene.Point{q[0] + wide, q[1] + tall}); n < least {
					corner, least = q, n
				}
			}
			name := scene.Words("", tileName(row, column), scene.Point{corner[0] + wide/2, corner[1] + tall/2 - headType*0.35}, scene.Point{}, headType, "middle", "ink")
			plate := scene.Item{Area: &scene.Area{Points: box(corner[0], corner[1], corner[0]+wide, corner[1]+tall), Fill: "paper", Stroke: &scene.Stroke{Width: 0.2, Color: "soft"}}}
			c.put(scene.Item{Area: &scene.Area{Points: box(a[0], a[1], b[0], b[1]), Stroke: &scene.Stroke{Width: 0.25, Color: "soft", Dash: []float64{4, 1, 1, 1}}}}, plate, name)
		}
	}
}

// plates are the places for the name of a part on the whole, the best first: in a corner of it,
// or over or under it where no other part lies there.
func (t *tiling) plates(row, column int, a, b scene.Point, wide, tall float64) []scene.Point {
	left, right, middle := a[0]+1, b[0]-1-wide, (a[0]+b[0]-wide)/2
	all := []scene.Point{{right, b[1] - 1 - tall}, {left, b[1] - 1 - tall}, {right, a[1] + 1}, {left, a[1] + 1}}
	if row == 0 {
		all = append(all, scene.Point{right, b[1] + 0.5}, scene.Point{left, b[1] + 0.5}, scene.Point{middle, b[1] + 0.5})
	}
	if row == t.rows-1 {
		all = append(all, scene.Point{right, a[1] - 0.5 - tall}, scene.Point{left, a[1] - 0.5 - tall}, scene.Point{middle, a[1] - 0.5 - tall})
	}
	return all
}

// touched says whether a line or a sign of a drawing lies in a window; words alone are the names
// of what lies beneath them.
func touched(s *scene.Scene, low, high scene.Point) bool {
	in := func(p scene.Point) bool {
		return p[0] >= low[0] && p[0] <= high[0] && p[1] >= low[1] && p[1] <= high[1]
	}
	for i := range s.Layers {
		for k := range s.Layers[i].Items {
			switch it := &s.Layers[i].Items[k]; {
			case it.Mark != nil && in(it.Mark.At):
				return true
			case it.Line != nil && passes(it.Line.Points, in):
				return true
			}
		}
	}
	return false
}

// passes says whether a line comes through a window, by places on it a little apart.
func passes(points []scene.Point, in func(scene.Point) bool) bool {
	const apart = 0.25 // m
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := int(math.Hypot(b[0]-a[0], b[1]-a[1])/apart) + 1
		for k := 0; k <= n && n < 1e5; k++ {
			f := float64(k) / float64(n)
			if in(scene.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}) {
				return true
			}
		}
	}
	return false
}
