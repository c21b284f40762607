package parts

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// explain notes what is to be known of a piece.
func (c *counter) explain(p *Piece, s *strand) {
	note := func(text string) { p.Notes = append(p.Notes, text) }
	switch {
	case p.Cut == nil:
		note("neither drawn nor measured: its length is not known")
	case p.TooShort:
		note("the fittings stand closer than their bodies allow: a close nipple or a direct fitting")
	}
	for _, e := range []PieceEnd{p.From, p.To} {
		if e.Unknown != "" {
			note("not known, taken as zero: " + e.Unknown)
		}
	}
	for _, b := range p.Bends {
		switch {
		case b.Tight:
			note(fmt.Sprintf("the bend at %s has no room for the least radius of %s", b.ID, c.long(s.stock.LeastRadius(s.size))))
		case b.Radius == 0:
			note("the bend at " + b.ID + " is counted as a sharp corner: no radius for it is known")
		}
	}
}

// situate says where a piece and its ends are.
func (c *counter) situate(s *strand, p *Piece, sec section) {
	if at, ok := s.at((sec.begin + sec.end) / 2); ok {
		p.Room = c.roomAt(at, true)
	} else {
		p.Room = c.roomOfEnds(s.legs[0].run)
	}
	for _, end := range []struct {
		e      *PieceEnd
		centre float64
		inward float64
	}{{&p.From, sec.begin, 1}, {&p.To, sec.end, -1}} {
		if centre, ok := s.at(end.centre); ok {
			end.e.Mark = c.mark(centre)
		}
		if at, ok := s.at(end.centre + end.inward*float64(end.e.TakeOut)); ok {
			end.e.At = &at
		}
	}
	for _, h := range []struct {
		joint *Joint
		at    *geom.Point
	}{{sec.from.joint, p.From.At}, {sec.to.joint, p.To.At}} {
		if h.joint != nil && h.at != nil {
			h.joint.At = h.at
		}
	}
}

// mark is where on the nearest wall a place is drawn; nil with none in reach.
func (c *counter) mark(p geom.Point) *Mark {
	var best *Mark
	for i := range c.job.Building.Walls {
		w := &c.job.Building.Walls[i]
		f := w.Frame()
		along, up, off := f.In(p)
		if along < -geom.Tiny || along > f.Length()+geom.Tiny || up < -geom.Tiny || up > float64(w.Height)+geom.Tiny || math.Abs(off) > markReach {
			continue
		}
		if best == nil || math.Abs(off) < math.Abs(float64(best.Off)) {
			best = &Mark{w.ID, unit.Length(along), unit.Length(up), unit.Length(off)}
		}
	}
	return best
}
