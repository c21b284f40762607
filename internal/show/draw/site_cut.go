package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// window is a rectangle of the plan.
type window struct{ low, high geom.Flat }

func everywhere() window {
	far := math.Inf(1)
	return window{geom.Flat{-far, -far}, geom.Flat{far, far}}
}

func (w window) holds(p geom.Flat) bool {
	return p[0] >= w.low[0] && p[0] < w.high[0] && p[1] >= w.low[1] && p[1] < w.high[1]
}

// parted is a part of a shop by its plan: what it owns meets what its neighbours own, and what
// is drawn of it ends where its own lines are seen to go on.
type parted struct{ own, drawn window }

func (p parted) owns(at geom.Point) bool { return p.own.holds(at.Plan()) }

func (p parted) clip(a, b geom.Point) (t0, t1 float64, ok bool) {
	return p.drawn.clip(a, b)
}

func (w window) clip(a, b geom.Point) (t0, t1 float64, ok bool) {
	t1 = 1
	for k := range 2 {
		t0, t1 = clip(t0, t1, a[k], b[k], w.low[k], w.high[k])
	}
	return t0, t1, t1 > t0
}

// building is cut off at the edges of what is drawn.
func (p parted) building(b job.Building) job.Building {
	var rooms []job.Room
	for _, r := range b.Rooms {
		if r.Outline = p.drawn.outline(r.Outline); len(r.Outline) > 2 {
			rooms = append(rooms, r)
		}
	}
	var walls []job.Wall
	for _, w := range b.Walls {
		from, to := w.From.At(0), w.To.At(0)
		if t0, t1, ok := p.drawn.clip(from, to); ok {
			w.From, w.To = mixed(from, to, t0).Plan(), mixed(from, to, t1).Plan()
			walls = append(walls, w)
		}
	}
	b.Rooms, b.Walls = rooms, walls
	return b
}

// outline is what of an outline lies in a window (Sutherland and Hodgman's clip).
func (w window) outline(all []geom.Flat) []geom.Flat {
	for k := range 2 {
		for _, side := range []struct{ at, sign float64 }{{w.low[k], 1}, {w.high[k], -1}} {
			if math.IsInf(side.at, 0) {
				continue
			}
			var kept []geom.Flat
			for i, b := range all {
				a := all[(i+len(all)-1)%len(all)]
				da, db := side.sign*(a[k]-side.at), side.sign*(b[k]-side.at)
				if da > 0 && db < 0 || da < 0 && db > 0 {
					at := a.Plus(b.Minus(a).Times(da / (da - db)))
					at[k] = side.at
					kept = append(kept, at)
				}
				if db >= 0 {
					kept = append(kept, b)
				}
			}
			all = kept
		}
	}
	return all
}

// edges are the edges of a window, one bit each, that a place is on.
func (w *window) edges(c geom.Flat) int {
	on := 0
	if w == nil {
		return on
	}
	for k := range 2 {
		for n, edge := range []float64{w.low[k], w.high[k]} {
			if math.Abs(c[k]-edge) < 1e-6 {
				on |= 1 << (2*k + n)
			}
		}
	}
	return on
}

// disc is a ring on an isometric drawing.
type disc struct {
	at     scene.Point
	radius float64 // m
}

func (d disc) owns(p geom.Point) bool {
	q := minus(isometric(p), d.at)
	return math.Hypot(q[0], q[1]) < d.radius
}

func (d disc) clip(a, b geom.Point) (t0, t1 float64, ok bool) {
	p, q := minus(isometric(a), d.at), minus(isometric(b), d.at)
	way := minus(q, p)
	aa, bb, cc := way[0]*way[0]+way[1]*way[1], p[0]*way[0]+p[1]*way[1], p[0]*p[0]+p[1]*p[1]-d.radius*d.radius
	if aa < 1e-12 {
		return 0, 1, cc < 0
	}
	root := bb*bb - aa*cc
	if root <= 0 {
		return 0, 0, false
	}
	root = math.Sqrt(root)
	t0, t1 = max((-bb-root)/aa, 0), min((-bb+root)/aa, 1)
	return t0, t1, t1 > t0
}

// building is left away: a detail is of the lines.
func (disc) building(b job.Building) job.Building {
	b.Rooms, b.Walls = nil, nil
	return b
}
