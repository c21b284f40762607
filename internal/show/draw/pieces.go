package draw

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// piece is a stretch of a run on one panel.
type piece struct {
	run    *job.Run
	panel  int
	way    []geom.Flat // along and up on the panel
	t0, t1 float64     // shares of the run's length
	ends   [2]job.ID
	corner [2][3]int // its ends in space, in mm
	ghost  bool      // it runs elsewhere in the room
}

// find cuts every run into pieces on the panels.
func (e *elevator) find() {
	e.shownOn = map[job.ID]int{}
	for i := range e.job.Net.Runs {
		e.cut(&e.job.Net.Runs[i])
	}
	e.meet()
	for _, ghost := range []bool{false, true} {
		for _, c := range e.pieces {
			for _, id := range c.ends {
				if _, known := e.shownOn[id]; !known && id != "" && c.ghost == ghost {
					e.shownOn[id] = c.panel
				}
			}
		}
	}
}

// cut adds the pieces of one run.
func (e *elevator) cut(r *job.Run) {
	line := e.given.Index.Centreline(r)
	total := geom.Length(line)
	if len(line) < 2 || !(total > 0) || !finite(total) {
		return
	}
	along := 0.0
	ghost := -1 // the panel of the ghost before
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		d := a.Distance(b)
		if d < 1e-9 {
			continue
		}
		seen := e.near(a, b)
		for _, s := range seen {
			e.add(r, s, line, along/total, d/total, i, false)
		}
		for _, s := range gaps(seen, 0.25/d) {
			if s.panel = e.ghostPanel(a, b, ghost); s.panel >= 0 {
				ghost = s.panel
				e.add(r, s, line, along/total, d/total, i, true)
			}
		}
		along += d
	}
}

// share is a part of a segment that one panel shows.
type share struct {
	panel  int
	t0, t1 float64
}

// near are the parts of a segment that panels show: those that run along a wall
// or up it within its reach; what climbs in a corner belongs to the nearer wall.
func (e *elevator) near(a, b geom.Point) []share {
	var all []share
	climbs := a.Plan().Distance(b.Plan()) < 0.2*a.Distance(b)
	best := math.Inf(1)
	for i := range e.panels {
		p := &e.panels[i]
		s0, u0, d0 := p.In(a)
		s1, u1, d1 := p.In(b)
		if math.Hypot(s1-s0, u1-u0) < 0.35*a.Distance(b) {
			continue
		}
		t0, t1 := clip(0, 1, s0, s1, -0.02, p.long+0.02)
		t0, t1 = clip(t0, t1, d0, d1, -0.05, float64(reach))
		t0, t1 = clip(t0, t1, u0, u1, -0.1, e.top+0.1)
		if t1-t0 < 1e-6 {
			continue
		}
		deep := math.Abs(d0 + (d1-d0)*(t0+t1)/2)
		switch {
		case !climbs:
			all = append(all, share{i, t0, t1})
		case deep < best-1e-6:
			best, all = deep, []share{{i, t0, t1}}
		}
	}
	return all
}

// clip narrows a range of t to where a value running from v0 to v1 lies within bounds.
func clip(t0, t1, v0, v1, low, high float64) (float64, float64) {
	d := v1 - v0
	if math.Abs(d) < 1e-12 {
		if v0 < low || v0 > high {
			return 1, 0
		}
		return t0, t1
	}
	a, b := (low-v0)/d, (high-v0)/d
	return max(t0, min(a, b)), min(t1, max(a, b))
}

// gaps are the parts of a segment that no panel shows, those longer than least.
func gaps(seen []share, least float64) []share {
	seen = slices.Clone(seen)
	slices.SortFunc(seen, func(a, b share) int {
		if a.t0 < b.t0 {
			return -1
		}
		return 1
	})
	var all []share
	from := 0.0
	for _, s := range seen {
		if s.t0-from > least {
			all = append(all, share{-1, from, s.t0})
		}
		from = max(from, s.t1)
	}
	if 1-from > min(least, 0.999) {
		all = append(all, share{-1, from, 1})
	}
	return all
}

// ghostPanel is the panel on which a segment away from the walls is drawn: the
// nearest that it runs along; the one before where that will do. −1 outside the room.
func (e *elevator) ghostPanel(a, b geom.Point, before int) int {
	mid := a.Plus(b).Times(0.5)
	if e.room == nil || !geom.Contains(e.room.Outline, mid.Plan()) || mid[2] < float64(e.room.Floor)-0.1 || mid[2]-float64(e.room.Floor) > e.top+0.1 {
		return -1
	}
	best, least := -1, math.Inf(1)
	short := a.Distance(b) < 1 // stays with its neighbours, even if it is seen end-on
	for i := range e.panels {
		p := &e.panels[i]
		s0, u0, d0 := p.In(a)
		s1, u1, d1 := p.In(b)
		along, deep := (s0+s1)/2, (d0+d1)/2
		if !short && math.Hypot(s1-s0, u1-u0) < 0.7*a.Distance(b) || along < 0 || along > p.long || deep < 0 {
			continue
		}
		if i == before {
			deep = -1
		}
		if deep < least-1e-6 {
			best, least = i, deep
		}
	}
	return best
}

// add puts a part of segment i of a run on its panel, joined to the piece before
// where that ends at the same place of the same panel.
func (e *elevator) add(r *job.Run, s share, line []geom.Point, from, share float64, i int, ghost bool) {
	p := &e.panels[s.panel]
	at := func(t float64) (geom.Flat, geom.Point) {
		q := line[i-1].Plus(line[i].Minus(line[i-1]).Times(t))
		along, up, _ := p.In(q)
		return geom.Flat{min(max(along, 0), p.long), up}, q
	}
	a, q0 := at(s.t0)
	b, q1 := at(s.t1)
	t0, t1 := from+s.t0*share, from+s.t1*share
	end := job.ID("")
	if i == len(line)-1 && s.t1 > 1-1e-9 {
		end = r.To.Point
	}
	if n := len(e.pieces); n > 0 {
		// Only what belongs to the same run and begins where this one ends joins on.
		last := &e.pieces[n-1]
		if last.run == r && last.panel == s.panel && last.ghost == ghost && math.Abs(last.t1-t0) < 1e-9 {
			last.way, last.t1, last.ends[1], last.corner[1] = append(last.way, b), t1, end, millimetres(q1)
			return
		}
	}
	start := job.ID("")
	if i == 1 && s.t0 < 1e-9 {
		start = r.From.Point
	}
	e.pieces = append(e.pieces, piece{
		run: r, panel: s.panel, way: []geom.Flat{a, b}, t0: t0, t1: t1, ends: [2]job.ID{start, end},
		corner: [2][3]int{millimetres(q0), millimetres(q1)}, ghost: ghost,
	})
}

func millimetres(p geom.Point) [3]int {
	return [3]int{int(math.Round(p[0] * 1000)), int(math.Round(p[1] * 1000)), int(math.Round(p[2] * 1000))}
}

// meet draws lines that go round a corner on to the edge at which the two panels
// meet, at the height of the corner.
func (e *elevator) meet() {
	type end struct{ piece, end int }
	at := map[[3]int][]end{}
	for i := range e.pieces {
		if e.pieces[i].ghost {
			continue
		}
		for k, c := range e.pieces[i].corner {
			at[c] = append(at[c], end{i, k})
		}
	}
	for i := range e.pieces {
		for k, c := range e.pieces[i].corner {
			for _, o := range at[c] {
				a, b := &e.pieces[i], &e.pieces[o.piece]
				p := &e.panels[a.panel]
				if a.ghost || p.next != b.panel || a.panel == b.panel {
					continue
				}
				e.toEdge(a, k, p.long)
				e.toEdge(b, o.end, 0)
			}
		}
	}
}

// toEdge lengthens a piece level to an edge of its panel that it comes near.
func (e *elevator) toEdge(c *piece, end int, edge float64) {
	k := 0
	if end == 1 {
		k = len(c.way) - 1
	}
	q := c.way[k]
	if d := math.Abs(q[0] - edge); d < 1e-9 || d > float64(reach)+0.05 {
		return
	}
	to := geom.Flat{edge, q[1]}
	if end == 1 {
		c.way = append(c.way, to)
	} else {
		c.way = append([]geom.Flat{to}, c.way...)
	}
}
