package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// off is how far from a wall's face a line is drawn at least, in mm. At the
// usual 50 mm off the wall it would melt into the wall on any sheet that shows
// a whole shop.
const off = 3

// near is how close to a wall's face a line counts as running along it, in metres.
const near = 0.2

// shown moves a place that is close to a wall off its face so far that a line
// there is seen. All places along one wall move alike, so lines stay straight.
func (p *planner) shown(at scene.Point) scene.Point {
	q := at
	for _, w := range p.walls {
		along, deep := w.seen(q)
		// From where the walls before have moved it: two walls in one line push once.
		if along < -near || along > w.length+near || deep < 0 && deep > -w.thick {
			continue
		}
		side, gap := 1.0, deep
		if deep < 0 {
			side, gap = -1, -deep-w.thick
		}
		want := off / p.scale
		if gap > near || gap >= want {
			continue
		}
		q[0] += side * (want - gap) * w.into[0]
		q[1] += side * (want - gap) * w.into[1]
		p.moved = true
	}
	return q
}

// seen is how far along a wall a place is, and how far off its face into the room.
func (w face) seen(at scene.Point) (along, deep float64) {
	d := minus(at, w.from)
	return (d[0]*(w.to[0]-w.from[0]) + d[1]*(w.to[1]-w.from[1])) / w.length, d[0]*w.into[0] + d[1]*w.into[1]
}

// course is a run seen from above, moved clear of walls; nil where it has no
// place in the room, as when only its length is stated.
func (p *planner) course(r job.Run) []scene.Point {
	var out []scene.Point
	for _, c := range p.given.Index.Centreline(&r) {
		q := p.shown(scene.Point{c[0], c[1]})
		if n := len(out); n == 0 || math.Hypot(q[0]-out[n-1][0], q[1]-out[n-1][1]) > 1e-6 {
			out = append(out, q)
		}
	}
	return out
}

// place is where a point of the net is.
func (p *planner) place(id job.ID) (geom.Point, bool) {
	return p.given.Index.Where(p.given.Index.Point(id))
}

// pen is the width of a run on paper in mm: thicker for a wider bore.
func (p *planner) pen(r job.Run) float64 {
	if size, ok := p.given.Shelf.Size(r.Stock, r.Size); ok {
		return min(max(0.55+float64(size.Bore)*1000/32, 0.8), 2.2)
	}
	return 1
}

// lines draws the runs, lower ones first, and takes their place on the field.
func (p *planner) lines() []scene.Item {
	var items []scene.Item
	for _, r := range p.job.Net.Runs {
		course := p.course(r)
		if len(course) < 2 || p.blind(r) {
			continue
		}
		for i := 1; i < len(course); i++ {
			p.field.draw(p.mm(course[i-1]), p.mm(course[i]), p.pen(r)/2, 5)
		}
		items = append(items, p.laid(p.pipe(&r), course)...)
	}
	return items
}

// blind says whether a run leads to nothing but a fitting that waits for a closer look.
func (p *planner) blind(r job.Run) bool {
	for _, end := range []job.ID{r.From.Point, r.To.Point} {
		pt := p.given.Index.Point(end)
		if pt == nil || len(p.given.Index.Ends(end)) != 1 || len(p.given.Index.OutletsAt(end)) > 0 {
			continue
		}
		kind, ok := p.given.Shelf.Kind(pt.Part.Kind)
		if tier, shows := tierOf(kind); ok && shows && tier == fitting && p.scale < p.fittingsFrom() && r.State != "stub" {
			return true
		}
	}
	return false
}

// lineFigures writes pressures beside the lines, each figure once, on the run
// that has most room for it: a drawing full of equal figures says nothing.
func (p *planner) lineFigures() []scene.Item {
	const size, room = 2.6, 20.0
	type spot struct {
		a, b scene.Point // mm
		long float64
	}
	spots := map[string]spot{}
	var order []string
	for _, r := range p.job.Net.Runs {
		ends, known := p.given.Ends[r.ID]
		course := p.course(r)
		if !known || len(course) < 2 || r.State == "stub" {
			continue
		}
		a, b := longest(course)
		a, b = p.mm(a), p.mm(b)
		text := p.sheet.short(unit.KindGauge, float64(ends[0]+ends[1])/2)
		old, met := spots[text]
		if !met {
			order = append(order, text)
		}
		if long := math.Hypot(b[0]-a[0], b[1]-a[1]); long > old.long {
			spots[text] = spot{a, b, long}
		}
	}
	items := []scene.Item{}
	for _, text := range order {
		s := spots[text]
		pick := best(&p.field, beside(s.a, s.b, text, size))
		if s.long < room || pick.cost > 1.5 {
			continue
		}
		p.field.take(pick.box)
		items = append(items, scene.Words("", text, p.metres(pick.at), scene.Point{}, size, pick.anchor, "soft"))
	}
	return items
}

// longest is the longest straight piece of a course.
func longest(course []scene.Point) (a, b scene.Point) {
	most := -1.0
	for i := 1; i < len(course); i++ {
		if d := math.Hypot(course[i][0]-course[i-1][0], course[i][1]-course[i-1][1]); d > most {
			most, a, b = d, course[i-1], course[i]
		}
	}
	return a, b
}

// beside tries a text on both sides of a piece, in the middle and towards its ends.
func beside(a, b scene.Point, text string, size float64) []label {
	upright := math.Abs(b[1]-a[1]) > math.Abs(b[0]-a[0])
	var tried []label
	for i, t := range []float64{0.5, 0.36, 0.64, 0.25, 0.75} {
		m := mix(a, b, t)
		var pair []label
		if upright {
			pair = []label{
				written(text, size, false, scene.Point{m[0] + 1.8, m[1] - size*0.35}, "start"),
				written(text, size, false, scene.Point{m[0] - 1.8, m[1] - size*0.35}, "end"),
			}
		} else {
			pair = []label{
				written(text, size, false, scene.Point{m[0], m[1] + 1.7}, "middle"),
				written(text, size, false, scene.Point{m[0], m[1] - 1.5 - size*0.8}, "middle"),
			}
		}
		for j := range pair {
			pair[j].cost = 0.1 * float64(i)
		}
		tried = append(tried, pair...)
	}
	return tried
}
