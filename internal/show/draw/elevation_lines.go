package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// lines draws the pieces, ghosts apart, and gives them as strands for the symbols.
func (e *elevator) lines() (ghosts, lines []scene.Item, strands []strand) {
	e.spots, e.leaving = map[job.ID]scene.Point{}, map[job.ID]bool{}
	for i := range e.pieces {
		c := &e.pieces[i]
		p := &e.panels[c.panel]
		course := make([]scene.Point, 0, len(c.way))
		mm := make([]scene.Point, 0, len(c.way))
		for _, q := range c.way {
			at := p.on(q[0], q[1])
			if n := len(course); n > 0 && math.Hypot(at[0]-course[n-1][0], at[1]-course[n-1][1]) < 1e-6 {
				continue
			}
			course, mm = append(course, at), append(mm, e.mm(at))
		}
		e.mark(c, mm)
		if len(course) < 2 {
			continue
		}
		s := strand{run: c.run, course: mm, ends: e.owned(c)}
		q := e.pipe(c.run).part(c.t0, c.t1)
		weight := 5.0
		if c.ghost {
			e.ghostly = true
			weight = 1
			ghosts = append(ghosts, scene.Polyline(q.id, q.title, scene.Stroke{Width: 0.3, Color: "soft", Dash: []float64{0.4, 1.1}, Round: true}, course...))
		} else {
			lines = append(lines, e.laid(q, course)...)
		}
		for k := 1; k < len(mm); k++ {
			e.field.draw(mm[k-1], mm[k], q.width/2, weight)
		}
		strands = append(strands, s)
	}
	return ghosts, append(lines, e.leavers()...), strands
}

// owned are a piece's ends that are drawn on its panel and not on another one.
func (e *elevator) owned(c *piece) [2]job.ID {
	ends := c.ends
	for k, id := range ends {
		if id != "" && e.shownOn[id] != c.panel {
			ends[k] = ""
		}
	}
	return ends
}

// mark remembers where the points at a piece's ends are drawn.
func (e *elevator) mark(c *piece, mm []scene.Point) {
	p := &e.panels[c.panel]
	for _, id := range e.owned(c) {
		if id == "" || len(mm) == 0 {
			continue
		}
		at, ok := e.place(id)
		if !ok {
			continue
		}
		along, up, _ := p.In(at)
		if _, known := e.spots[id]; !known {
			e.spots[id] = e.mm(p.on(min(max(along, 0), p.long), up))
		}
	}
}

// leavers mark where a line leaves its wall towards the one who looks: a ring
// with a dot, as on any drawing of pipes.
func (e *elevator) leavers() []scene.Item {
	type seenAt struct{ near, ghost bool }
	state := map[[3]int]seenAt{}
	for _, c := range e.pieces {
		for _, at := range c.corner {
			s := state[at]
			s.near, s.ghost = s.near || !c.ghost, s.ghost || c.ghost
			state[at] = s
		}
	}
	var items []scene.Item
	done := map[[3]int]bool{}
	for _, c := range e.pieces {
		for k, at := range c.corner {
			if s := state[at]; c.ghost || !s.near || !s.ghost || done[at] {
				continue
			}
			done[at] = true
			end := c.way[0]
			if k == 1 {
				end = c.way[len(c.way)-1]
			}
			q := e.panels[c.panel].on(end[0], end[1])
			ring := scene.Path{D: "M-1.1 0A1.1 1.1 0 1 0 1.1 0A1.1 1.1 0 1 0 -1.1 0Z", Fill: "floor", Stroke: &scene.Stroke{Width: 0.3, Color: "ink"}}
			dot := scene.Path{D: "M-0.4 0A0.4 0.4 0 1 0 0.4 0A0.4 0.4 0 1 0 -0.4 0Z", Fill: "ink"}
			items = append(items, scene.Item{
				ID: string(c.run.ID), Title: "the line leaves the wall here", Mark: &scene.Mark{At: q, Parts: []scene.Path{ring, dot}},
			})
			mm := e.mm(q)
			e.field.take(around(mm[0], mm[1], 2.4, 2.4))
		}
	}
	return items
}

// longestFor keeps, for every text, the longest stretch that it could stand beside.
type longestFor struct {
	order []string
	a, b  map[string]scene.Point
	long  map[string]float64
	id    map[string]string
}

func (l *longestFor) offer(key, id string, a, b scene.Point) {
	if l.long == nil {
		l.a, l.b, l.long, l.id = map[string]scene.Point{}, map[string]scene.Point{}, map[string]float64{}, map[string]string{}
	}
	d := math.Hypot(b[0]-a[0], b[1]-a[1])
	if _, met := l.long[key]; !met {
		l.order = append(l.order, key)
	}
	if d > l.long[key] {
		l.a[key], l.b[key], l.long[key], l.id[key] = a, b, d, id
	}
}

// levels writes the height of level lines: of those at much the same height on a
// panel, the longest.
func (e *elevator) levels() []scene.Item {
	const size, room, alike = 2.4, 14.0, 0.25
	type level struct {
		at, long float64
		id       job.ID
		a, b     scene.Point
	}
	var items []scene.Item
	on := make([][]level, len(e.panels))
	for _, c := range e.pieces {
		for k := 1; k < len(c.way) && !c.ghost; k++ {
			a, b := c.way[k-1], c.way[k]
			long := math.Abs(a[0] - b[0])
			if math.Abs(a[1]-b[1]) > 0.05*long || long*e.scale < room {
				continue
			}
			p := &e.panels[c.panel]
			on[c.panel] = append(on[c.panel], level{(a[1] + b[1]) / 2, long, c.run.ID, e.mm(p.on(a[0], a[1])), e.mm(p.on(b[0], b[1]))})
		}
	}
	for _, all := range on {
		slices.SortStableFunc(all, func(a, b level) int { return cmp.Compare(b.long, a.long) })
		var told []float64
		for _, l := range all {
			if slices.ContainsFunc(told, func(h float64) bool { return math.Abs(h-l.at) < alike }) {
				continue
			}
			text := e.sheet.level(l.at)
			if pick := best(&e.field, beside(l.a, l.b, text, size)); pick.cost <= 2 {
				told = append(told, l.at)
				e.field.take(pick.box)
				items = append(items, scene.Words(string(l.id), text, e.metres(pick.at), scene.Point{}, size, pick.anchor, "soft"))
			}
		}
	}
	return items
}

// pressuresOn writes pressures beside the lines, each figure once on the drawing.
func (e *elevator) pressuresOn() []scene.Item {
	var best longestFor
	for _, c := range e.pieces {
		q := e.pipe(c.run).part(c.t0, c.t1)
		if !q.known || c.ghost || q.stub {
			continue
		}
		text := e.sheet.plain(unit.KindGauge, (q.ends[0]+q.ends[1])/2)
		for k := 1; k < len(c.way); k++ {
			a, b := c.way[k-1], c.way[k]
			best.offer(text, "", e.mm(e.panels[c.panel].on(a[0], a[1])), e.mm(e.panels[c.panel].on(b[0], b[1])))
		}
	}
	return e.besides(best, 2.6, 20, 1.5)
}

// besides writes texts beside their stretches where there is room.
func (p *planner) besides(texts longestFor, size, room, most float64) []scene.Item {
	var items []scene.Item
	for _, text := range texts.order {
		if texts.long[text] < room {
			continue
		}
		pick := best(&p.field, beside(texts.a[text], texts.b[text], text, size))
		if pick.cost > most {
			continue
		}
		p.field.take(pick.box)
		items = append(items, scene.Words(texts.id[text], text, p.metres(pick.at), scene.Point{}, size, pick.anchor, "soft"))
	}
	return items
}
