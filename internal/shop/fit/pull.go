package fit

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// spotKey is a place that can be pulled: a point, or a corner of a run.
type spotKey struct {
	point job.ID
	run   job.ID
	i     int // corner of the run
}

// leg is a straight between two places of a run, leaving the one asked.
type leg struct {
	to   spotKey
	run  *job.Run
	at   int // it lies between the places at and at+1 of the run's way
	u    geom.Point
	long float64
}

// puller works out how the net follows when some of its places are pulled: what is
// next to a pulled place moves so that the leg between them keeps its direction, and
// so on, until something takes the movement up along itself or stands fast.
type puller struct {
	*sketch
	by      map[spotKey]geom.Point // how far each place goes
	queue   []spotKey
	through bool            // pulls whole straights along, tees and all
	shifted map[job.ID]bool // runs that are shifted themselves: they jog at what stands fast
}

// slack is the share of a movement that a leg takes up by a slight slant: that a
// main falls 1 in 100 is no reason to move what is at its end.
const slack = 0.03

// pull pulls places.
func (p *puller) pull(by geom.Point, keys ...spotKey) {
	for _, k := range keys {
		if _, done := p.by[k]; !done {
			p.by[k] = by
			p.queue = append(p.queue, k)
		}
	}
}

// follow lets the net follow.
func (p *puller) follow() {
	for len(p.queue) > 0 {
		v := p.queue[0]
		p.queue = p.queue[1:]
		for _, l := range p.legs(v) {
			if _, moved := p.by[l.to]; moved {
				continue
			}
			by := p.by[v]
			along := by.Dot(l.u)
			off := by.Minus(l.u.Times(along))
			if l.long-along < nearEnd && len(p.legs(l.to)) > 1 { // no more to take up: it is pushed
				off = by
			}
			if off.Length() > slack*by.Length() && off.Length() > geom.Tiny {
				if m, ok := p.give(l, off); ok {
					p.pull(m, l.to)
				}
			}
		}
	}
}

// give is how far the place at the far end of a leg goes along with a movement
// across the leg.
func (p *puller) give(l leg, off geom.Point) (geom.Point, bool) {
	if l.to.point == "" {
		return off, true
	}
	n := p.byPoint[l.to.point]
	if p.fast(n) {
		return geom.Point{}, false
	}
	legs := p.legs(l.to)
	others := slices.DeleteFunc(slices.Clone(legs), func(o leg) bool { return o.run == l.run && o.at == l.at })
	if len(others) < 2 {
		return off, true
	}
	for _, o := range others { // the leg goes on straight: the tee is in a line that is pulled across
		if degrees(geom.Angle(o.u, l.u)) < straightOn {
			return off, p.through
		}
	}
	if t, ok := inLineOf(others); ok { // the leg is a branch: the tee slides along its line
		along := t.Times(off.Dot(t))
		return along, along.Length() > geom.Tiny
	}
	return geom.Point{}, false
}

// inLineOf is the direction of two legs that are in line.
func inLineOf(legs []leg) (geom.Point, bool) {
	for i := range legs {
		for k := i + 1; k < len(legs); k++ {
			if degrees(geom.Angle(legs[i].u, legs[k].u)) > 180-straightOn {
				return legs[i].u, true
			}
		}
	}
	return geom.Point{}, false
}

// fast says whether a point stands fast: plant, what is fixed to the building, outlets.
func (s *sketch) fast(n *node) bool {
	k := s.kind(&n.Part)
	return k.FixesTo != "" || k.Group == catalog.Plant && !k.Has(catalog.Flexes) || k.Group == catalog.Treatment || k.Group == catalog.Outlet || len(s.outletsAt(n.ID)) > 0
}

// keyAt names the place i of a run's way of n places.
func keyAt(r *job.Run, i, n int) spotKey {
	switch i {
	case 0:
		return spotKey{point: r.From.Point}
	case n - 1:
		return spotKey{point: r.To.Point}
	}
	return spotKey{run: r.ID, i: i - 1}
}

// legs lists the legs that leave a place.
func (p *puller) legs(k spotKey) []leg {
	var out []leg
	add := func(r *job.Run, way []geom.Point, i, to, at int) {
		if d := way[to].Minus(way[i]); d.Length() > geom.Tiny {
			out = append(out, leg{to: keyAt(r, to, len(way)), run: r, at: at, u: d.Unit(), long: d.Length()})
		}
	}
	if k.run != "" {
		r := p.byRun[k.run]
		way := p.way(r)
		if i := k.i + 1; len(way) > i+1 {
			add(r, way, i, i-1, i-1)
			add(r, way, i, i+1, i)
		}
		return out
	}
	for _, e := range p.ends(k.point) {
		way := p.way(e.run)
		switch n := len(way); {
		case n < 2:
		case e.atTo:
			add(e.run, way, n-1, n-2, n-2)
		default:
			add(e.run, way, 0, 1, 0)
		}
	}
	return out
}

// settle moves the places and lays the runs between them anew: a leg that would
// lose its direction gets a jog. It says by which run a movement is too far.
func (p *puller) settle() error {
	ways := map[job.ID][]geom.Point{}
	for _, r := range p.runs {
		way := p.way(r)
		moved := false
		for i := range way {
			_, m := p.by[keyAt(r, i, len(way))]
			moved = moved || m
		}
		if moved {
			after, err := p.lay(r, way)
			if err != nil {
				return err
			}
			ways[r.ID] = after
		}
	}
	for _, n := range p.points {
		if by, ok := p.by[spotKey{point: n.ID}]; ok && n.placed {
			p.put(n, tidyPoint(n.where.Plus(by)))
		}
	}
	for _, r := range p.runs {
		if way, ok := ways[r.ID]; ok {
			r.Path = tidyPath(smooth(way))
			p.moved(r)
		}
	}
	return nil
}

// lay is the way of a run after the movement.
func (p *puller) lay(r *job.Run, way []geom.Point) ([]geom.Point, error) {
	at := func(i int) (geom.Point, geom.Point) {
		by := p.by[keyAt(r, i, len(way))]
		return way[i].Plus(by), by
	}
	first, _ := at(0)
	out := []geom.Point{first}
	for i := 1; i < len(way); i++ {
		a, byA := at(i - 1)
		b, byB := at(i)
		was, now := way[i].Minus(way[i-1]), b.Minus(a)
		u := was.Unit()
		long := now.Dot(u)
		if was.Length() <= geom.Tiny {
			out = append(out, b)
			continue
		}
		across := now.Minus(u.Times(long))
		if r.Role != "link" && across.Length() > slack*math.Max(byA.Length(), byB.Length()) && across.Length() > nearEnd {
			// The step is at the place that moves, or where the run meets what stands fast.
			atA := byA.Length() > byB.Length()
			if p.shifted[r.ID] {
				atA = !atA
			}
			if atA {
				out = append(out, b.Minus(u.Times(long)))
			} else {
				out = append(out, a.Plus(u.Times(long)))
			}
		}
		if long < nearEnd && (r.Role != "link" || now.Length() < nearEnd) {
			return nil, p.tooFar(r)
		}
		out = append(out, b)
	}
	return out, nil
}

func (p *puller) tooFar(r *job.Run) error {
	return refuse("too-far", "by_m", "nothing would be left of "+called(r.Name, r.ID), "", r.ID)
}

// put places a point anew; one on a wall stays on it as far as the wall goes.
func (s *sketch) put(n *node, at geom.Point) {
	n.where, n.placed = at, true
	s.dirty[n.ID] = true
	if n.On != nil {
		if w := s.ix.Wall(n.On.Wall); w != nil {
			along, up, off := w.Frame().In(at)
			if l := w.Frame().Length(); along > -geom.Tiny && along < l+geom.Tiny {
				n.On = &job.OnWall{Wall: w.ID, Along: tidy(math.Max(0, math.Min(l, along))), Up: tidy(up), Off: tidy(off)}
				n.At = nil
				return
			}
		}
	}
	n.At, n.On = &at, nil
}
