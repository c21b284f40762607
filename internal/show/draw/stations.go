package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// What is measured along the walls of a plan. A place nearer to the end of a wall than inCorner
// lies in the corner, and one nearer to another than alike is the same mark on the wall, metres.
const (
	inCorner = 0.1
	alike    = 0.05
	tall     = 0.3 // from here on a line that goes up or down is a drop or a riser
)

// station is a place along a wall that lines are hung by.
type station struct {
	along float64 // m from the wall's first end
	room  *job.Room
}

// stations are the places along each wall: outlets, drops and risers at it, and lines to be laid
// that run square to it, each told on one wall of its room alone.
func (p *planner) stations() [][]station {
	all := make([][]station, len(p.walls))
	add := func(at scene.Point, wall int, along float64) {
		if wall < 0 || along < inCorner || along > p.walls[wall].length-inCorner {
			return
		}
		if !slices.ContainsFunc(all[wall], func(old station) bool { return math.Abs(old.along-along) < alike }) {
			all[wall] = append(all[wall], station{along, p.roomAt(at)})
		}
	}
	upright := func(at scene.Point) {
		wall, along := p.wallBy(at)
		add(at, wall, along)
	}
	for i := range p.job.Outlets {
		if at, ok := p.place(p.job.Outlets[i].Point); ok {
			upright(scene.Point{at[0], at[1]})
		}
	}
	p.planned(func(a, b geom.Point) {
		if a.Plan().Distance(b.Plan()) < alike && math.Abs(a[2]-b[2]) > tall {
			upright(scene.Point{a[0], a[1]})
		}
	})
	p.planned(func(a, b geom.Point) {
		if middle := (scene.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}); p.open(a, b) && !p.known(all, middle, a, b) {
			wall, along := p.squareTo(a, b)
			add(middle, wall, along)
		}
	})
	for i := range all {
		slices.SortFunc(all[i], func(a, b station) int { return cmp.Compare(a.along, b.along) })
	}
	return all
}

// planned are the straight stretches of the lines that are to be laid.
func (p *planner) planned(do func(a, b geom.Point)) {
	for i := range p.job.Net.Runs {
		r := &p.job.Net.Runs[i]
		if r.State == "stub" || r.State == "existing" {
			continue
		}
		line := p.given.Index.Centreline(r)
		for k := 1; k < len(line); k++ {
			do(line[k-1], line[k])
		}
	}
}

// known says whether a wall of the room that a stretch runs in tells already where it runs.
func (p *planner) known(all [][]station, middle scene.Point, a, b geom.Point) bool {
	room := p.roomAt(middle)
	for i, w := range p.walls {
		if math.Abs(w.across(a, b)) > 0.05 {
			continue
		}
		along, _ := w.seen(middle)
		if slices.ContainsFunc(all[i], func(old station) bool { return old.room == room && math.Abs(old.along-along) < alike }) {
			return true
		}
	}
	return false
}

// wallBy is the wall that a place is at, within the reach of a bracket, and how far along it;
// -1 in the open.
func (p *planner) wallBy(at scene.Point) (wall int, along float64) {
	wall, least := -1, float64(reach)
	for i, w := range p.walls {
		s, gap := w.beside(at)
		if s >= 0 && s <= w.length && gap < least {
			wall, along, least = i, s, gap
		}
	}
	return wall, along
}

// beside is how far along a wall a place is, and how far off the nearer of its faces; in the
// wall that is nothing.
func (w face) beside(at scene.Point) (along, gap float64) {
	along, deep := w.seen(at)
	return along, max(deep, -deep-w.thick, 0)
}

// open says whether a stretch runs level and clear of every wall that it runs along.
func (p *planner) open(a, b geom.Point) bool {
	flat := a.Plan().Distance(b.Plan())
	if flat < tall || math.Abs(a[2]-b[2]) > 0.2*flat {
		return false
	}
	middle := scene.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	for _, w := range p.walls {
		s, gap := w.beside(middle)
		if s >= 0 && s <= w.length && gap < float64(reach) && math.Abs(w.across(a, b)) > 0.5 {
			return false
		}
	}
	return true
}

// across is the cosine between a stretch and a wall.
func (w face) across(a, b geom.Point) float64 {
	return cosine(scene.Point{a[0], a[1]}, scene.Point{b[0], b[1]}, w.from, w.to)
}

// squareTo is the nearest wall that a stretch runs square to, and where along it; -1 for none.
func (p *planner) squareTo(a, b geom.Point) (wall int, along float64) {
	wall, least := -1, math.Inf(1)
	for i, w := range p.walls {
		if math.Abs(w.across(a, b)) > 0.05 {
			continue
		}
		s, gap := w.beside(scene.Point{a[0], a[1]})
		_, other := w.beside(scene.Point{b[0], b[1]})
		if gap = min(gap, other); s > 0 && s < w.length && gap < least {
			wall, along, least = i, s, gap
		}
	}
	return wall, along
}

// spur is a line that leaves a wall and ends out in the room: how far out is measured beside it.
type spur struct {
	face, end scene.Point // m, on the wall's face and where it ends or turns
}

func (p *planner) spurs() []spur {
	var all []spur
	p.planned(func(a, b geom.Point) {
		if p.open(a, b) {
			all = p.spur(all, a, b)
		}
	})
	return all
}

func (p *planner) spur(all []spur, a, b geom.Point) []spur {
	wall, _ := p.squareTo(a, b)
	if wall < 0 {
		return all
	}
	w := p.walls[wall]
	near, far := scene.Point{a[0], a[1]}, scene.Point{b[0], b[1]}
	_, gap := w.beside(near)
	_, other := w.beside(far)
	if gap > other {
		near, far, gap = far, near, other
	}
	if other, _ := p.wallBy(far); gap > float64(reach) || other >= 0 {
		return all
	}
	s := spur{p.onFace(w, far), far}
	for i, o := range all {
		d, e := minus(o.face, s.face), minus(o.end, o.face)
		if f := minus(s.end, s.face); math.Hypot(d[0], d[1]) < alike && e[0]*f[0]+e[1]*f[1] > 0 {
			if math.Hypot(f[0], f[1]) > math.Hypot(e[0], e[1]) {
				all[i] = s // one line in several runs: to its end
			}
			return all
		}
	}
	return append(all, s)
}

// onFace is the foot of a place on the side of a wall that it is on.
func (p *planner) onFace(w face, at scene.Point) scene.Point {
	_, deep := w.seen(at)
	if deep < 0 {
		deep += w.thick
	}
	return scene.Point{at[0] - deep*w.into[0], at[1] - deep*w.into[1]}
}
