package fit

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// nearEnd is how near to an end of a run a cut is taken to be at that end, 10 mm:
// no fitting could be set there.
const nearEnd = 0.010

// placeOn is the place at a length along a run as it stands in the job.
func (s *sketch) placeOn(run job.ID, along float64, path string) (geom.Point, error) {
	r := s.byRun[run]
	if r == nil {
		return geom.Point{}, s.noSuch("run", run, path+".run")
	}
	way := s.way(r)
	if way == nil {
		return geom.Point{}, refuse("not-drawn", path+".run", called(r.Name, r.ID)+" states its length and is not drawn", "place its ends and take its length away first", r.ID)
	}
	long := geom.Length(way)
	if along < -geom.Tiny || along > long+geom.Tiny {
		return geom.Point{}, refuse("off-run", path+".along_m", fmt.Sprintf("%s is %s long and does not reach %s", called(r.Name, r.ID), measured(s.ix, long), measured(s.ix, along)),
			"the nearest place on it is at "+measured(s.ix, math.Max(0, math.Min(long, along))), r.ID)
	}
	if along < nearEnd {
		along = 0
	} else if along > long-nearEnd {
		along = long
	}
	at, _, _ := geom.OnPath(way, along)
	return tidyPoint(at), nil
}

// cutAt puts a new plain point on a run, or on what it was cut into before, where
// it passes a place. The piece upstream keeps the id. At an end it is that end.
func (s *sketch) cutAt(run job.ID, at geom.Point, stem job.ID, state string) *node {
	best, along, far := (*job.Run)(nil), 0.0, math.Inf(1)
	for _, id := range append([]job.ID{run}, s.pieces[run]...) {
		r := s.byRun[id]
		if r == nil {
			continue
		}
		if hit, ok := geom.NearestOnPath(at, s.way(r)); ok {
			if d := hit.At.Distance(at); d < far-geom.Tiny {
				best, along, far = r, hit.Along, d
			}
		}
	}
	if best == nil {
		return nil
	}
	way := s.way(best)
	switch long := geom.Length(way); {
	case along < nearEnd:
		return s.byPoint[best.From.Point]
	case along > long-nearEnd:
		return s.byPoint[best.To.Point]
	}
	first, second := geom.Split(way, along)
	n := s.addPoint(stem, spot{at: tidyPoint(first[len(first)-1])}, job.Part{Kind: s.plain().Kind}, state)
	rest := s.addRun(best.ID, *best, job.End{Point: n.ID}, best.To, inside(second))
	rest.Name = best.Name
	best.To, best.Path = job.End{Point: n.ID}, inside(first)
	s.pieces[run] = append(s.pieces[run], rest.ID)
	s.moved(best)
	return n
}

// inside is the corners of a way without its ends, and without those that the ends
// fall upon.
func inside(way []geom.Point) []geom.Point {
	var out []geom.Point
	for _, p := range way[1 : len(way)-1] {
		if p.Distance(way[0]) > geom.Tiny && p.Distance(way[len(way)-1]) > geom.Tiny {
			out = append(out, p)
		}
	}
	return out
}

// merge makes one run of the two that meet at a plain place, where they are of one
// stock, size and use. The place becomes a corner of the run. The piece that comes
// to the place keeps its id. False where they are not to be joined.
func (s *sketch) merge(n *node, bend bool) bool {
	ends := s.ends(n.ID)
	k := s.kind(&n.Part)
	if len(ends) != 2 || len(s.outletsAt(n.ID)) > 0 || !shaped(k) || n.Name != "" {
		return false
	}
	a, b := ends[0], ends[1]
	if !a.atTo && b.atTo {
		a, b = b, a
	}
	if a.run == b.run || a.other().Point == b.other().Point || !alike(a.run, b.run, a.atTo == b.atTo) {
		return false
	}
	turn, known := s.turnBetween(a, b)
	if !known || turn > straightOn && (!bend || !s.bendable(a.run.Stock, turn)) {
		return false
	}
	first, second := s.way(a.run), s.way(b.run)
	if !a.atTo {
		slices.Reverse(first)
	}
	if b.atTo {
		slices.Reverse(second)
	}
	way := append(first, second[1:]...)
	far := *b.other()
	if !a.atTo {
		slices.Reverse(way)
	}
	s.dropRun(b.run)
	*a.at() = far
	a.run.Path = smooth(way)
	s.moved(a.run)
	delete(s.dirty, n.ID)
	s.dropPoint(n)
	return true
}

// bendable says whether a corner can be part of a run of a stock.
func (s *sketch) bendable(stock string, turn float64) bool {
	row, ok := s.shelf.Stock(stock)
	if !ok || row.Corners == "sweep" || row.SweepRadius != nil {
		return true
	}
	_, off, ok := s.elbow(turn, false)
	return ok && off <= give
}

// smooth is a way's inner places without those that lie on the straight between
// their neighbours.
func smooth(way []geom.Point) []geom.Point {
	var out []geom.Point
	last := way[0]
	for i := 1; i+1 < len(way); i++ {
		p, after := way[i], way[i+1]
		if p.Distance(last) <= geom.Tiny || p.Distance(way[len(way)-1]) <= geom.Tiny && i+2 < len(way) {
			continue
		}
		if degrees(geom.Angle(p.Minus(last), after.Minus(p))) < 1e-4 {
			continue
		}
		out = append(out, p)
		last = p
	}
	return out
}

// alike says whether two runs may be one; turned where they run against each other.
func alike(a, b *job.Run, turned bool) bool {
	if a.Length != nil || b.Length != nil || a.Stock != b.Stock || a.Size != b.Size || a.Role != b.Role || a.State != b.State ||
		a.Support != b.Support || a.Zone != b.Zone || a.Rough != b.Rough {
		return false
	}
	if a.Slope == nil || b.Slope == nil {
		return a.Slope == b.Slope
	}
	if turned {
		return *a.Slope == -*b.Slope
	}
	return *a.Slope == *b.Slope
}

// noSuch refuses an id that leads nowhere.
func (s *sketch) noSuch(what string, id job.ID, path string) error {
	return refuse("leads-nowhere", path, fmt.Sprintf("there is no %s %q", what, brief(string(id))), "", id)
}
