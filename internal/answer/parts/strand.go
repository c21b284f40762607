package parts

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// strand is line without a branch and of one make, from one fitting or open end to
// the next: one run, or several that meet at plain places where nothing joins them.
type strand struct {
	legs   []leg
	stock  catalog.Stock
	size   catalog.Size
	state  State
	long   float64 // m along its centre-line, of what is known
	joints []*Joint
}

// leg is a run as a strand passes it, from From to To or back.
type leg struct {
	run   *job.Run
	back  bool
	path  []geom.Point // in the strand's direction; nil where it is not drawn
	begin float64      // m along the strand
	long  float64
	known bool
}

// begin and end are the two ends of a strand.
func (c *counter) begin(s *strand) runEnd { return c.endOf(s.legs[0].run, s.legs[0].back) }

func (c *counter) end(s *strand) runEnd {
	l := s.legs[len(s.legs)-1]
	return c.endOf(l.run, !l.back)
}

// endOf is a run's end with its settled port.
func (c *counter) endOf(r *job.Run, atTo bool) runEnd {
	point := runEnd{run: r, atTo: atTo}.point()
	for _, e := range c.ends[point] {
		if e.run == r && e.atTo == atTo {
			return e
		}
	}
	return runEnd{run: r, atTo: atTo}
}

// lay makes the strands, each begun by its first run in the order of the job.
func (c *counter) lay() []*strand {
	var all []*strand
	used := map[*job.Run]bool{}
	for i := range c.job.Net.Runs {
		seed := &c.job.Net.Runs[i]
		if used[seed] {
			continue
		}
		used[seed] = true
		ahead := c.follow(c.endOf(seed, true), used)
		behind := c.follow(c.endOf(seed, false), used)
		s := &strand{state: stateOf(seed.State)}
		for _, e := range slices.Backward(behind) {
			s.legs = append(s.legs, leg{run: e.run, back: !e.atTo})
		}
		s.legs = append(s.legs, leg{run: seed})
		for _, e := range ahead {
			s.legs = append(s.legs, leg{run: e.run, back: e.atTo})
		}
		s.stock, _ = c.shelf.Stock(seed.Stock)
		s.size, _ = s.stock.Size(seed.Size)
		c.measure(s)
		all = append(all, s)
	}
	return all
}

// follow lists the run ends by which a line goes on from an end over plain places. A
// ring of nothing but plain places is cut at the one where it closes.
func (c *counter) follow(e runEnd, used map[*job.Run]bool) []runEnd {
	var list []runEnd
	for {
		next, ok := c.onward(e)
		if !ok {
			return list
		}
		if used[next.run] {
			c.cutAt[e.point()] = true
			return list
		}
		used[next.run] = true
		list = append(list, next)
		e = c.endOf(next.run, !next.atTo)
	}
}

// measure fills in the legs' ways and lengths.
func (c *counter) measure(s *strand) {
	for i := range s.legs {
		l := &s.legs[i]
		long, known := c.index.LengthOf(l.run)
		l.begin, l.long, l.known = s.long, float64(long), known
		s.long += l.long
		if l.run.Length != nil {
			continue // the drawing is not the way that it goes
		}
		l.path = c.index.Centreline(l.run)
		if l.back {
			slices.Reverse(l.path)
		}
	}
}

// at is the place along a strand; ok is false where it is not drawn there.
func (s *strand) at(along float64) (geom.Point, bool) {
	for i := range s.legs {
		l := &s.legs[i]
		if along > l.begin+l.long && i+1 < len(s.legs) {
			continue
		}
		p, _, ok := geom.OnPath(l.path, along-l.begin)
		return p, ok
	}
	return geom.Point{}, false
}

// turning is a place along a strand where it turns: an elbow of stick, a bend of coil.
type turning struct {
	id      string
	along   float64
	turn    float64 // rad
	in, out string  // ports of an elbow, as the strand passes it
	at      geom.Point
}

// turnings lists where a strand turns, in its order, named as they are counted.
func (c *counter) turnings(s *strand) []turning {
	var list []turning
	for i := range s.legs {
		l := &s.legs[i]
		corners := geom.Corners(l.path, leastTurn)
		for n, at := range corners {
			t := turning{at: at.At, along: l.begin + at.Along, turn: at.Turn, in: "in", out: "out"}
			if l.back {
				n = len(corners) - 1 - n
				t.in, t.out = t.out, t.in
			}
			t.id = fmt.Sprintf("%s/corner-%d", l.run.ID, n+1)
			list = append(list, t)
		}
		if i+1 == len(s.legs) || len(l.path) == 0 {
			continue
		}
		point := c.endOf(l.run, !l.back).point()
		if turn, ok := c.turnAt(point); ok && turn > leastTurn {
			list = append(list, turning{id: string(point), along: l.begin + l.long, turn: turn, at: l.path[len(l.path)-1]})
		}
	}
	return list
}

// spans is the share that each run has of a stretch of a strand.
func (s *strand) spans(from, to float64, known bool) []Span {
	var list []Span
	for i := range s.legs {
		l := &s.legs[i]
		a, b := math.Max(from, l.begin), math.Min(to, l.begin+l.long)
		switch {
		case !l.known && l.begin >= from && l.begin <= to:
			list = append(list, Span{Run: l.run.ID})
		case b > a || len(s.legs) == 1:
			span := Span{Run: l.run.ID}
			if known {
				span.Length = long(b - a)
			}
			list = append(list, span)
		}
	}
	return list
}

// legAt is the run that a place along a strand is on.
func (s *strand) legAt(along float64) *job.Run {
	for i := range s.legs {
		if l := &s.legs[i]; along < l.begin+l.long-geom.Tiny || i+1 == len(s.legs) {
			return l.run
		}
	}
	return s.legs[0].run
}

// allKnown says whether all legs between two places along have a length.
func (s *strand) allKnown(from, to float64) bool {
	for i := range s.legs {
		if l := &s.legs[i]; !l.known && l.begin >= from && l.begin <= to {
			return false
		}
	}
	return true
}
