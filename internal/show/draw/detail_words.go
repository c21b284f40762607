package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// symbols draws the parts in the lines, and the outlet's ring.
func (t *detail) symbols() []scene.Item {
	var items []scene.Item
	for _, id := range t.drop.Points {
		pt := t.given.Index.Point(id)
		at, ok := t.place(id)
		if pt == nil || !ok {
			continue
		}
		kind, known := t.given.Shelf.Kind(pt.Part.Kind)
		if _, shows := drawnAs(kind); known && shows {
			q := t.on(at)
			items = append(items, t.stamped(fixture{point: pt, kind: kind, at: q, ground: "paper"}, t.seated(kind.Symbol, id, q), t.wayAt(id), 0.8, false))
		}
	}
	at, ok := t.place(t.drop.Outlet.Point)
	if !ok {
		return items
	}
	q := t.on(at)
	ring := scene.Point{q[0] - 7, q[1]}
	items = append(items, scene.Polyline("", "", scene.Solid(0.25, "ink"), q, scene.Point{ring[0] + t.gauge.radius, ring[1]}))
	index := slices.IndexFunc(t.job.Outlets, func(o job.Outlet) bool { return o.ID == t.drop.Outlet.ID })
	return append(items, t.ring(t.drop.Outlet, OutletMark(*t.drop.Outlet, index), ring)...)
}

// seated is where a symbol stands at its point: one that hangs from its port is moved off it.
func (t *detail) seated(symbol string, id job.ID, q scene.Point) scene.Point {
	pt := t.given.Index.Point(id)
	kind, _ := t.given.Shelf.Kind(pt.Part.Kind)
	size := extentOf(symbol)
	if down, leaf := upright(kind); leaf && down {
		return scene.Point{q[0], q[1] - size.y1*0.8}
	} else if leaf {
		return scene.Point{q[0], q[1] - size.y0*0.8}
	}
	return q
}

// wayAt is the way of the line at a point on the drawing.
func (t *detail) wayAt(id job.ID) scene.Point {
	pt := t.given.Index.Point(id)
	kind, _ := t.given.Shelf.Kind(pt.Part.Kind)
	if _, leaf := upright(kind); leaf {
		return scene.Point{1, 0}
	}
	for _, e := range t.given.Index.Ends(id) {
		line := t.given.Index.Centreline(e.Run)
		if len(line) < 2 {
			continue
		}
		a, b := t.on(line[0]), t.on(line[1])
		if e.AtTo {
			a, b = t.on(line[len(line)-2]), t.on(line[len(line)-1])
		}
		if far := math.Hypot(b[0]-a[0], b[1]-a[1]); far > 0 {
			return scene.Point{(b[0] - a[0]) / far, (b[1] - a[1]) / far}
		}
	}
	return scene.Point{1, 0}
}

// said is a note with its place.
type said struct {
	at    scene.Point
	lines []string
	y     float64 // of its first line
}

const noteStep = detailType * 1.3 // from line to line of a note

// said places words in a column on the right, each as near to the height of what it is about
// as the others let it.
func (t *detail) said(notes []Note) []said {
	const step = noteStep
	var all []said
	for _, n := range notes {
		at, ok := t.about(n.ID)
		if ok && n.Words != "" {
			all = append(all, said{at: at, lines: wrapped(n.Words, detailType, noteColumn-1)})
		}
	}
	slices.SortStableFunc(all, func(a, b said) int { return cmp.Compare(b.at[1], a.at[1]) })
	// Downwards each takes the first place that is free; then all that hang too low move up.
	floor := math.Inf(1)
	for i := range all {
		all[i].y = min(all[i].at[1], floor)
		floor = all[i].y - step*float64(len(all[i].lines)) - 1
	}
	ceiling := t.bottom() - 6
	for i := len(all) - 1; i >= 0; i-- {
		low := all[i].y - step*float64(len(all[i].lines)-1)
		if low < ceiling {
			all[i].y += ceiling - low
		}
		ceiling = all[i].y + step + 1
	}
	return all
}

// reach is how high and how low the drawing goes with its notes, mm.
func (t *detail) reach(all []said) (top, foot float64) {
	top, foot = t.top()+6, t.bottom()-8
	for _, n := range all {
		top = max(top, n.y+noteStep)
		foot = min(foot, n.y-noteStep*float64(len(n.lines)))
	}
	return top, foot
}

// notes writes the words, each with a leader to what it is about.
func (t *detail) notes(all []said) []scene.Item {
	const step = noteStep
	var items []scene.Item
	x := t.right()
	for _, n := range all {
		knee := scene.Point{x - 3, n.y}
		items = append(items, scene.Polyline("", "", scene.Solid(0.15, "ink"), n.at, knee, scene.Point{x - 0.8, n.y}))
		for i, line := range n.lines {
			items = append(items, scene.Words("", line, scene.Point{x, n.y - detailType*0.35 - step*float64(i)}, scene.Point{}, detailType, "start", "ink"))
		}
	}
	return items
}

// about is the place of a point, or of the middle of the longest stretch of a run.
func (t *detail) about(id job.ID) (at scene.Point, ok bool) {
	if r := t.given.Index.Run(id); r != nil {
		var course []scene.Point
		for _, p := range t.given.Index.Centreline(r) {
			course = append(course, t.on(p))
		}
		if len(course) < 2 {
			return at, false
		}
		a, b := longest(course)
		return mix(a, b, 0.35), true
	}
	p, ok := t.place(id)
	if !ok {
		return at, false
	}
	return t.on(p), true
}

// levels writes the heights of the points over the floor on the left, one under the other.
func (t *detail) levels() []scene.Item {
	var items []scene.Item
	floor := math.Inf(1)
	base := 0.0
	if at, ok := t.place(t.drop.Outlet.Point); ok {
		base = t.floorAt(at)
	}
	for i := len(t.highs) - 1; i >= 0; i-- {
		y := t.ys[i]
		if y > floor {
			continue
		}
		floor = y - detailType*1.3
		items = append(items,
			scene.Words("", t.sheet.Units.Marked(unit.Length(t.highs[i]-base)), scene.Point{0, y - detailType*0.35}, scene.Point{}, detailType, "start", "ink"),
			scene.Polyline("", "", scene.Stroke{Width: 0.13, Color: "soft", Dash: []float64{1.5, 0.8}}, scene.Point{17, y}, scene.Point{t.right() - 4, y}))
	}
	return items
}
