package fit

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// leastSide is the shortest side or wall that a stretch leaves, in metres.
const leastSide = 0.1

// edge names a side of a room.
type edge struct {
	room *job.Room
	n    int
}

// shift is a line of the building that moves: the sides and walls that lie on it.
type shift struct {
	ix    *job.Index
	by    geom.Flat // how far, square to the line
	out   geom.Flat // unit, out of the first room
	s     float64   // m along out
	edges map[edge]bool
	walls map[job.ID]bool
	lines []edge   // edges in the order found
	faces []job.ID // walls in the order found
}

// shiftSide moves a side of a room by s metres outwards, with all that follows.
func shiftSide(ix *job.Index, r *job.Room, n int, s float64) ([]job.Edit, error) {
	first := edge{r, n}
	sh := &shift{
		ix: ix, out: sideOf(r, n).out, s: s,
		edges: map[edge]bool{first: true}, walls: map[job.ID]bool{}, lines: []edge{first},
	}
	sh.by = sh.out.Times(s)
	sh.gather()
	c := newChange(ix)
	c.moved = sh
	for i := range ix.Job().Building.Rooms {
		room := &ix.Job().Building.Rooms[i]
		if outline, err := sh.outline(room); err != nil {
			return nil, err
		} else if outline != nil {
			c.outlines[room.ID] = outline
		}
	}
	for i := range ix.Job().Building.Walls {
		w := &ix.Job().Building.Walls[i]
		after := *w
		after.From, after.To = sh.end(w, w.From), sh.end(w, w.To)
		if after.From != w.From || after.To != w.To {
			c.walls[w.ID] = &after
		}
	}
	sh.obstacles(c)
	return c.edits()
}

// gather finds all sides and walls that lie on the line with one that does.
func (sh *shift) gather() {
	b := &sh.ix.Job().Building
	for known := 0; known < len(sh.lines); {
		for ; known < len(sh.lines); known++ {
			e := sh.lines[known]
			s := sideOf(e.room, e.n)
			for i := range b.Walls {
				w := &b.Walls[i]
				if _, ok := s.meets(w); ok && !sh.walls[w.ID] {
					sh.walls[w.ID], sh.faces = true, append(sh.faces, w.ID)
				}
			}
			sh.beside(e, s)
		}
		for i := range b.Rooms {
			for n := range b.Rooms[i].Outline {
				if e := (edge{&b.Rooms[i], n}); !sh.edges[e] && sh.carries(e) {
					sh.take(e)
				}
			}
		}
	}
}

func (sh *shift) take(e edge) { sh.edges[e], sh.lines = true, append(sh.lines, e) }

// beside takes the sides of the same room that run on in the line of one that moves.
func (sh *shift) beside(e edge, s side) {
	count := len(e.room.Outline)
	for _, n := range []int{(e.n + 1) % count, (e.n + count - 1) % count} {
		o := edge{e.room, n}
		if d := sideOf(e.room, n).dir; !sh.edges[o] && math.Abs(d.Cross(s.dir)) < 0.01 {
			sh.take(o)
		}
	}
}

// carries says whether a side lies on a wall that moves, or back to back with a
// side that does.
func (sh *shift) carries(e edge) bool {
	s := sideOf(e.room, e.n)
	for _, id := range sh.faces {
		if _, ok := s.meets(sh.ix.Wall(id)); ok {
			return true
		}
	}
	for _, o := range sh.lines {
		t := sideOf(o.room, o.n)
		if math.Abs(s.dir.Cross(t.dir)) > 0.01 || math.Abs(t.a.Minus(s.a).Dot(s.out)) > near ||
			math.Min(s.roof, t.roof)-math.Max(s.floor, t.floor) < near {
			continue
		}
		a, b := t.a.Minus(s.a).Dot(s.dir), t.b.Minus(s.a).Dot(s.dir)
		if math.Min(s.length(), math.Max(a, b))-math.Max(0, math.Min(a, b)) > near {
			return true
		}
	}
	return false
}

// outline is a room's outline after the shift; nil where it stays.
func (sh *shift) outline(r *job.Room) ([]geom.Flat, error) {
	count := len(r.Outline)
	out, changed := make([]geom.Flat, count), false
	for i, c := range r.Outline {
		k := (i + count - 1) % count
		before, after := sh.edges[edge{r, k}], sh.edges[edge{r, i}]
		switch {
		case before && after:
			c = c.Plus(sh.by)
		case before:
			c = sh.slide(c, sideOf(r, i).dir)
		case after:
			c = sh.slide(c, sideOf(r, k).dir)
		}
		out[i] = c
		if before || after {
			out[i], changed = tidyFlat(c), true
		}
	}
	if !changed {
		return nil, nil
	}
	for i := range out {
		was, now := sideOf(r, i), out[(i+1)%count].Minus(out[i])
		if now.Dot(was.dir) < math.Min(leastSide, was.length())-geom.Tiny {
			return nil, refuse("too-short", "length_m", "the "+compass(was.out)+" side of "+called(r.Name, r.ID)+" would be too short", "", r.ID)
		}
	}
	return out, nil
}

// slide moves a corner with the line, along a direction that is to be kept.
func (sh *shift) slide(c, dir geom.Flat) geom.Flat {
	if across := dir.Dot(sh.out); math.Abs(across) > 0.05 {
		return c.Plus(dir.Times(sh.s / across))
	}
	return c.Plus(sh.by)
}

// end is where an end of a wall goes: that of a wall on the line with the line,
// that of another which ends there along its own way.
func (sh *shift) end(w *job.Wall, p geom.Flat) geom.Flat {
	if sh.walls[w.ID] {
		if by, ok := sh.corner(p); ok {
			return tidyFlat(p.Plus(by))
		}
		return tidyFlat(p.Plus(sh.by))
	}
	if !sh.touches(w, p) {
		return p
	}
	dir := direction(w.From, w.To)
	if math.Abs(dir.Dot(sh.out)) <= 0.05 {
		return p // it runs along the line without lying on it
	}
	return tidyFlat(sh.slide(p, dir))
}

// corner is how far the corner of a side moves at which a wall's end lies: where
// sides meet askew it slides.
func (sh *shift) corner(p geom.Flat) (by geom.Flat, ok bool) {
	for _, e := range sh.lines {
		count := len(e.room.Outline)
		for _, at := range []struct{ corner, other int }{{e.n, (e.n + count - 1) % count}, {(e.n + 1) % count, (e.n + 1) % count}} {
			c := e.room.Outline[at.corner]
			if c.Distance(p) <= near && !sh.edges[edge{e.room, at.other}] {
				return sh.slide(c, sideOf(e.room, at.other).dir).Minus(c), true
			}
		}
	}
	return by, false
}

// touches says whether an end of a wall lies on the line: on one of its sides, or
// on either face of one of its walls.
func (sh *shift) touches(w *job.Wall, p geom.Flat) bool {
	for _, e := range sh.lines {
		s := sideOf(e.room, e.n)
		if math.Min(s.roof, float64(w.Floor+w.Height))-math.Max(s.floor, float64(w.Floor)) < near {
			continue
		}
		off, along := p.Minus(s.a).Dot(s.out), p.Minus(s.a).Dot(s.dir)
		if math.Abs(off) <= near && along > -near && along < s.length()+near {
			return true
		}
	}
	for _, id := range sh.faces {
		o := sh.ix.Wall(id)
		f := o.Frame()
		along, _, off := f.In(p.At(0))
		thick := float64(o.Thickness)
		if off <= near && off >= -thick-near && along > -thick-near && along < f.Length()+thick+near &&
			math.Min(float64(o.Floor+o.Height), float64(w.Floor+w.Height))-math.Max(float64(o.Floor), float64(w.Floor)) >= near {
			return true
		}
	}
	return false
}

// hug is how near to a wall's face in metres a line or fitting is meant to be on it.
const hug = 0.3

// follows says whether a place in space is on the line that moves, on either side.
func (sh *shift) follows(p geom.Point) bool {
	for _, e := range sh.lines {
		s := sideOf(e.room, e.n)
		off, along := p.Plan().Minus(s.a).Dot(s.out), p.Plan().Minus(s.a).Dot(s.dir)
		if off >= -hug && off <= near && along > -near && along < s.length()+near && p[2] > s.floor-near && p[2] < s.roof+near {
			return true
		}
	}
	return false
}

// obstacles moves those that touch a side that moves; of one that reaches from
// there to a side that stays, only what touches.
func (sh *shift) obstacles(c *change) {
	for i := range sh.ix.Job().Building.Obstacles {
		o := &sh.ix.Job().Building.Obstacles[i]
		at, reaches := sh.touching(o)
		if at == nil {
			continue
		}
		outline := make([]geom.Flat, len(o.Outline))
		for k, p := range o.Outline {
			outline[k] = p
			if at[k] || !reaches {
				outline[k] = tidyFlat(p.Plus(sh.by))
			}
		}
		c.obstacles[o.ID] = outline
	}
}

// touching tells which corners of an obstacle touch a side that moves, and whether
// another touches a side of the same room across from it; nil where none does.
func (sh *shift) touching(o *job.Obstacle) (at []bool, reaches bool) {
	for _, e := range sh.lines {
		s := sideOf(e.room, e.n)
		if math.Min(s.roof, float64(o.Top))-math.Max(s.floor, float64(o.Bottom)) < 0 {
			continue
		}
		for k, p := range o.Outline {
			if s.has(p) && geom.Contains(e.room.Outline, geom.Centre(o.Outline)) {
				if at == nil {
					at = make([]bool, len(o.Outline))
				}
				at[k] = true
			}
		}
		for n := range e.room.Outline {
			t := sideOf(e.room, n)
			if sh.edges[edge{e.room, n}] || t.out.Dot(s.out) > -0.5 {
				continue
			}
			for _, p := range o.Outline {
				reaches = reaches || t.has(p)
			}
		}
	}
	return at, reaches
}

// has says whether a place lies on the side.
func (s side) has(p geom.Flat) bool {
	off, along := p.Minus(s.a).Dot(s.out), p.Minus(s.a).Dot(s.dir)
	return math.Abs(off) <= near && along > -near && along < s.length()+near
}
