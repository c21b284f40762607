package draw

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Drop is what serves one outlet alone: the lines of its drop with its drip, their points, and
// the points at which they leave what is shared.
type Drop struct {
	Outlet *job.Outlet
	Runs   []*job.Run
	Points []job.ID // its own
	From   []job.ID // shared
}

// DropOf walks from an outlet back along drops and drips.
func DropOf(ix *job.Index, o *job.Outlet) Drop {
	own := func(r *job.Run) bool { return r.Role == "drop" || r.Role == "drip" }
	d := Drop{Outlet: o}
	seen, passed := map[job.ID]bool{o.Point: true}, map[job.ID]bool{}
	for queue := []job.ID{o.Point}; len(queue) > 0; queue = queue[1:] {
		ends := ix.Ends(queue[0])
		if slices.ContainsFunc(ends, func(e job.RunEnd) bool { return !own(e.Run) }) {
			d.From = append(d.From, queue[0])
			continue
		}
		d.Points = append(d.Points, queue[0])
		for _, e := range ends {
			if !passed[e.Run.ID] {
				passed[e.Run.ID] = true
				d.Runs = append(d.Runs, e.Run)
			}
			if next := e.Other(); !seen[next] && next != "" {
				seen[next] = true
				queue = append(queue, next)
			}
		}
	}
	return d
}

// Note is words about a point or a run of a detail.
type Note struct {
	ID    job.ID
	Words string
}

// The measures of a detail in mm of paper. Distances between its parts are drawn between least
// and most: what is longer is broken, what is shorter is spread, and figures tell.
const (
	leastApart = 11.0
	mostApart  = 24.0
	perDetail  = 40.0 // mm to the metre between the two
	detailType = 2.5
	noteColumn = 44.0
	highColumn = 28.0
)

// detail draws one drop.
type detail struct {
	planner
	drop  Drop
	heads []float64 // m: the places across and the heights that occur, each with
	xs    []float64 // mm: where it is drawn
	highs []float64
	ys    []float64
	way   geom.Point // across the drawing
	cut   bool       // something was broken
}

// Detail draws a drop seen from before its wall, not to scale, with words about its parts on
// the right and heights over the floor on the left. One unit of the scene is one mm of paper.
func Detail(given Given, sheet Sheet, d Drop, title string, notes []Note) scene.Scene {
	t := &detail{planner: planner{given: given, job: given.Index.Job(), sheet: sheet, scale: 1, small: 1}, drop: d}
	t.gauge = workGauge()
	t.lay()
	items := append(t.levels(), t.lines()...)
	items = append(items, t.symbols()...)
	said := t.said(notes)
	items = append(items, t.notes(said)...)
	const size, step = 3.2, 4.2
	lines := wrapped(title, size*1.08, t.right()+noteColumn)
	top, foot := t.reach(said)
	high := top + 3 + step*float64(len(lines))
	for i, line := range lines {
		items = append(items, bold(scene.Words("", line, scene.Point{0, high - step*float64(i+1)}, scene.Point{}, size, "start", "ink")))
	}
	s := scene.Scene{Title: title, Min: scene.Point{0, foot}, Max: scene.Point{t.right() + noteColumn, high}}
	s.Layers = []scene.Layer{{ID: "detail", Title: title, Items: items}}
	s.Fill()
	return s
}

// lay finds where every place and height is drawn.
func (t *detail) lay() {
	var all []geom.Point
	for _, r := range t.drop.Runs {
		all = append(all, t.given.Index.Centreline(r)...)
	}
	if at, ok := t.place(t.drop.Outlet.Point); ok {
		all = append(all, at)
	}
	low, high := geom.Point{}, geom.Point{}
	for i, p := range all {
		for k := range 3 {
			if i == 0 || p[k] < low[k] {
				low[k] = p[k]
			}
			if i == 0 || p[k] > high[k] {
				high[k] = p[k]
			}
		}
	}
	// Across what the drop spreads most; a little of the other way keeps apart what would hide.
	t.way = geom.Point{1, 0.3, 0}
	if high[1]-low[1] > high[0]-low[0] {
		t.way = geom.Point{0.3, 1, 0}
	}
	for _, p := range all {
		t.heads, t.highs = append(t.heads, t.across(p)), append(t.highs, p[2])
	}
	t.heads, t.xs = t.spread(t.heads, highColumn)
	t.highs, t.ys = t.spread(t.highs, 0)
}

func (t *detail) across(p geom.Point) float64 { return p[0]*t.way[0] + p[1]*t.way[1] }

// spread gives each value its place in mm, from a first one on.
func (t *detail) spread(values []float64, first float64) (kept, places []float64) {
	slices.Sort(values)
	at := first
	for _, v := range values {
		n := len(kept)
		if n > 0 && v-kept[n-1] < 0.004 {
			continue
		}
		if n > 0 {
			far := (v - kept[n-1]) * perDetail
			t.cut = t.cut || far > mostApart
			at += min(max(far, leastApart), mostApart)
		}
		kept, places = append(kept, v), append(places, at)
	}
	return kept, places
}

// on is where a place is drawn.
func (t *detail) on(p geom.Point) scene.Point {
	find := func(values, places []float64, v float64) float64 {
		best := 0.0
		least := math.Inf(1)
		for i, x := range values {
			if d := math.Abs(x - v); d < least {
				best, least = places[i], d
			}
		}
		return best
	}
	return scene.Point{find(t.heads, t.xs, t.across(p)), find(t.highs, t.ys, p[2])}
}

func last(places []float64) float64 {
	if len(places) == 0 {
		return 0
	}
	return places[len(places)-1]
}

func (t *detail) right() float64  { return max(last(t.xs), highColumn) + 8 }
func (t *detail) top() float64    { return last(t.ys) }
func (t *detail) bottom() float64 { return 0 }

// lines draws the runs, with a break where one is longer than it is drawn.
func (t *detail) lines() []scene.Item {
	var items []scene.Item
	for _, r := range t.drop.Runs {
		line := t.given.Index.Centreline(r)
		var course []scene.Point
		for _, p := range line {
			course = append(course, t.on(p))
		}
		if len(course) < 2 {
			continue
		}
		items = append(items, scene.Polyline(string(r.ID), "", t.workStroke(r, 1.6), course...))
		for k := 1; k < len(line); k++ {
			drawn := math.Hypot(course[k][0]-course[k-1][0], course[k][1]-course[k-1][1])
			if line[k].Distance(line[k-1])*perDetail > drawn+4 && drawn > 8 {
				items = append(items, broken(course[k-1], course[k])...)
			}
		}
	}
	for _, id := range t.drop.From {
		if at, ok := t.place(id); ok {
			q := t.on(at)
			main := scene.Path{D: "M-6 0H6M-6 -1.2L-6.8 1.2M6 -1.2L6.8 1.2", Stroke: &scene.Stroke{Width: 0.9, Color: "line"}}
			items = append(items, scene.Item{ID: string(id), Title: "on the line", Mark: &scene.Mark{At: q, Parts: []scene.Path{main}}})
		}
	}
	return items
}

// broken is a break across the middle of a line.
func broken(a, b scene.Point) []scene.Item {
	turn := math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi
	gap := scene.Path{D: "M-0.9 0H0.9", Stroke: &scene.Stroke{Width: 3, Color: "paper"}}
	edges := scene.Path{D: "M-0.9 -2L-1.5 -0.4L-0.3 0.4L-0.9 2M0.9 -2L0.3 -0.4L1.5 0.4L0.9 2", Stroke: &scene.Stroke{Width: 0.25, Color: "ink"}}
	return []scene.Item{{Title: "broken: longer than drawn", Mark: &scene.Mark{At: mix(a, b, 0.5), Turn: turn, Parts: []scene.Path{gap, edges}}}}
}
