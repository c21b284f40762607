package fit

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Bypass puts three valves and a line round a part: the gesture "bypass". With the
// two beside the part shut and the third open, the part comes out while air flows;
// the third is drawn shut. Valves that stand beside the part already are used.
type Bypass struct {
	did
	Around []job.ID `json:"around" doc:"the part, or several that follow each other in the line"`
	State  string   `json:"state,omitempty" enum:"existing,planned,stub"`
}

// The measures of a bypass, in metres (common practice: room for a hand and a spanner).
const (
	toValve  = 0.25 // from the part to its valve
	toTee    = 0.20 // from there to where the bypass leaves
	clear    = 0.40 // from the line to the bypass beside it
	tightest = 0.03 // between two fittings where there is little room
)

// Edit puts the bypass in.
func (g *Bypass) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	valve, ok := s.isolating()
	if !ok {
		return nil, nil, refuse("no-fitting", "around", "the catalogue has no isolating valve", "")
	}
	in, out, err := g.sides(s)
	if err != nil {
		return nil, nil, err
	}
	like := *in.run
	like.State, like.Name, like.Slope = stateOr(g.State, like.State), "", nil
	a, err := g.side(s, in, valve, like.State)
	if err != nil {
		return nil, nil, err
	}
	b, err := g.side(s, out, valve, like.State)
	if err != nil {
		return nil, nil, err
	}
	path, err := g.round(s, a, b)
	if err != nil {
		return nil, nil, err
	}
	r := s.addRun(idOf("line", "bypass", "bypass"), like, job.End{Point: a.ID}, job.End{Point: b.ID}, path)
	first := a.where.Distance(path[0])
	middle := first + path[0].Distance(path[1])/2
	at, _, _ := geom.OnPath(s.way(r), middle)
	n := s.cutAt(r.ID, at, idOf("point", "bypass valve", "bypass"), like.State)
	s.setIn(n, job.Part{Kind: valve.Kind, Shut: true}, valve)
	s.leadWith(r.ID)
	return s.done(fmt.Sprintf("put a bypass round %s", s.nameOf(g.Around[0])))
}

// sides finds the line that comes to the parts and the one that goes on from them.
func (g *Bypass) sides(s *sketch) (in, out end, err error) {
	if len(g.Around) == 0 {
		return in, out, refuse("nothing-given", "around", "no part is chosen", "choose the part to be passed by")
	}
	var open []end
	for i, id := range g.Around {
		n := s.byPoint[id]
		if n == nil {
			return in, out, s.noSuch("point", id, fmt.Sprintf("around[%d]", i))
		}
		k := s.kind(&n.Part)
		for _, e := range s.ends(id) {
			port, _ := k.Port(e.at().Port)
			if !slices.Contains(g.Around, e.other().Point) && !aside(port) {
				open = append(open, e)
			}
		}
	}
	if len(open) != 2 {
		return in, out, refuse("not-in-line", "around", fmt.Sprintf("%d lines come to it, and a bypass leads from one to one other", len(open)),
			"choose a part that one line comes to and one leaves, or all parts between the two", g.Around...)
	}
	in, out = open[0], open[1]
	if !in.atTo && out.atTo {
		in, out = out, in
	}
	if in.run == out.run {
		return in, out, refuse("not-in-line", "around", "one run comes to it and leaves it", "", g.Around...)
	}
	return in, out, nil
}

// side puts valve and tee into the line on one side of the part and gives the tee.
func (g *Bypass) side(s *sketch, e end, valve catalog.Kind, state string) (*node, error) {
	next := s.byPoint[e.other().Point]
	if s.kind(&next.Part).Has(catalog.Isolates) && len(s.ends(next.ID)) == 2 { // it has its valve
		ends := s.ends(next.ID)
		beyond := ends[0]
		if beyond.run == e.run {
			beyond = ends[1]
		}
		return g.tee(s, beyond, toTee, state)
	}
	leg := s.lastLeg(e)
	off := math.Min(toValve, leg/3)
	at, err := g.onLeg(s, e, off)
	if err != nil {
		return nil, err
	}
	from := e.at().Point
	n := s.cutAt(e.run.ID, at, idOf("point", "bypass isolating", "valve"), state)
	s.setIn(n, job.Part{Kind: valve.Kind}, valve)
	for _, x := range s.ends(n.ID) {
		if x.other().Point != from {
			return g.tee(s, x, math.Min(toTee, leg/3), state)
		}
	}
	return nil, refuse("no-room", "around", "there is no room for the bypass beside it", "")
}

// tee cuts the place into the line at which the bypass leaves.
func (g *Bypass) tee(s *sketch, e end, off float64, state string) (*node, error) {
	off = math.Min(off, s.lastLeg(e)/2)
	at, err := g.onLeg(s, e, off)
	if err != nil {
		return nil, err
	}
	return s.cutAt(e.run.ID, at, idOf("point", "bypass tee", "tee"), state), nil
}

// lastLeg is the length of the straight by which a run comes to one of its ends.
func (s *sketch) lastLeg(e end) float64 {
	way := s.way(e.run)
	switch n := len(way); {
	case n < 2:
		return 0
	case e.atTo:
		return way[n-1].Distance(way[n-2])
	default:
		return way[0].Distance(way[1])
	}
}

// onLeg is a place on the straight by which a run comes to its end.
func (g *Bypass) onLeg(s *sketch, e end, off float64) (geom.Point, error) {
	way := slices.Clone(s.way(e.run))
	if off < tightest {
		return geom.Point{}, refuse("no-room", "around", fmt.Sprintf("the straight of %s beside it is only %s long", called(e.run.Name, e.run.ID), measured(s.ix, s.lastLeg(e))),
			"leave a straight of at least "+measured(s.ix, 3*tightest)+" on either side", e.run.ID)
	}
	if e.atTo {
		slices.Reverse(way)
	}
	at, _, _ := geom.OnPath(way, off)
	return tidyPoint(at), nil
}

// round is the way beside the line from tee to tee: out, along, back. It goes to the
// side that is square to both, free of obstacles and in the room.
func (g *Bypass) round(s *sketch, a, b *node) ([]geom.Point, error) {
	ua, ub := s.throughAt(a), s.throughAt(b)
	along := b.where.Minus(a.where).Unit()
	flat := geom.Point{-along[1], along[0], 0}.Unit()
	square := func(u, v geom.Point) bool { return math.Abs(u.Dot(v)) < math.Sin(give*math.Pi/180) }
	for _, way := range []geom.Point{flat, flat.Times(-1), {0, 0, 1}, {0, 0, -1}} {
		if way.Length() < 0.5 || !square(way, ua) || !square(way, ub) {
			continue
		}
		level := math.Max(a.where.Dot(way), b.where.Dot(way)) + clear
		p := tidyPoint(a.where.Plus(way.Times(level - a.where.Dot(way))))
		q := tidyPoint(b.where.Plus(way.Times(level - b.where.Dot(way))))
		if s.free(a.where, p) && s.free(b.where, q) && p.Distance(q) > 2*tightest {
			return []geom.Point{p, q}, nil
		}
	}
	return nil, refuse("no-room", "around", "there is no room for a line round it", fmt.Sprintf("keep %s free beside it", measured(s.ix, clear)), g.Around...)
}

// throughAt is the direction of the line at a place where it was cut.
func (s *sketch) throughAt(n *node) geom.Point {
	for _, e := range s.ends(n.ID) {
		if u, ok := s.leaving(e); ok {
			return u
		}
	}
	return geom.Point{}
}

// free says whether a place is in the same room as another and in no obstacle.
func (s *sketch) free(from, at geom.Point) bool {
	if s.ix.RoomAt(from) != s.ix.RoomAt(at) {
		return false
	}
	for _, o := range s.ix.Job().Building.Obstacles {
		if at[2] > float64(o.Bottom) && at[2] < float64(o.Top) && geom.Contains(o.Outline, at.Plan()) {
			return false
		}
	}
	return true
}
