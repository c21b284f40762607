package parts

import (
	"cmp"
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// hold is what an end of a piece is held by, before the piece is cut.
type hold struct {
	PieceEnd
	joint *Joint // nil where the end stands open
}

// face is from the fitting's centre to where its body ends, m.
func (h hold) face() float64 { return float64(h.TakeOut + h.Insertion) }

// anyRow is the kind and the size of a rule of the catalogue that holds for all.
const anyRow = "*"

// takeOut is what a part of a kind takes off a line of the stock. The family's rule
// for any kind speaks of fittings: a vessel or a filter is no fitting, and not known
// unless a row names it.
func (c *counter) takeOut(s *strand, kind catalog.Kind) PieceEnd {
	_, listed := c.shelf.TakeOut(s.stock.TakeOuts, kind.Kind, s.size.Size)
	_, ruled := c.shelf.TakeOut(s.stock.TakeOuts, kind.Kind, anyRow)
	body := kind.Group == catalog.Plant || kind.Group == catalog.Treatment || kind.Kind == ""
	if listed || ruled || !body {
		if e, ok := c.takeOutRow(s, kind.Kind); ok {
			return e
		}
	}
	return PieceEnd{Unknown: "from the centre of the " + cmp.Or(kind.Name("en"), "part") + " to the end of the pipe"}
}

// takeOutRow looks a take-out up by the name of a kind.
func (c *counter) takeOutRow(s *strand, kind string) (PieceEnd, bool) {
	if s.size.Size == "" {
		return PieceEnd{}, false
	}
	t, ok := c.shelf.TakeOutOf(s.stock, s.size, kind)
	if !ok {
		return PieceEnd{}, false
	}
	return PieceEnd{TakeOut: t.TakeOut, Insertion: t.Insert, Source: t.Ref}, true
}

// tie joins an end of a strand to what is at its point, and tells what holds it.
func (c *counter) tie(s *strand, e runEnd) hold {
	p := c.index.Point(e.point())
	if p == nil {
		return hold{}
	}
	if c.isPlain(p.ID) {
		return c.tiePlain(s, e, p)
	}
	part, kind := c.mouthAt(p, e)
	made := c.join(fmt.Sprintf("%s/%s", p.ID, e.port), part, c.pipeEnd(e), false, c.placeAt(p))
	return c.held(s, made, kind)
}

// mouthAt is the port of a point's part that a run end takes.
func (c *counter) mouthAt(p *job.Point, e runEnd) (mouth, catalog.Kind) {
	first := c.ends[p.ID][0].run // the part is bought for the stock of the first run
	kind, known := c.shelf.Kind(p.Part.Kind)
	m := c.portOf(string(p.ID), &p.Part, e.port, first.Stock, e.run.Size, stateOf(p.State))
	if !known {
		m.stock, _ = c.shelf.Stock(e.run.Stock)
	}
	return m, kind
}

// held puts together what holds a pipe that the joints lead to: the part alone, or
// the part and what is between.
func (c *counter) held(s *strand, made []*Joint, kind catalog.Kind) hold {
	last := made[len(made)-1]
	h := hold{joint: last}
	switch {
	case last.Mixed:
		h.Unknown = "how far the pipe goes into the " + cmp.Or(kind.Name("en"), "part") + ": two systems of joining meet"
	case len(made) == 1:
		h.PieceEnd = c.takeOut(s, kind)
	default:
		what := "adapter"
		if usual(s.stock) == threadJoint {
			what = c.straight.Kind
		}
		end, ok := c.takeOutRow(s, what)
		h.PieceEnd = end
		h.Unknown = "from the centre of the " + cmp.Or(kind.Name("en"), "part") + " to its thread"
		if !ok {
			h.Unknown += ", and the " + what
		}
	}
	if last.Kind == threadJoint && h.Insertion == 0 {
		h.Insertion = last.Needs.Engagement
	}
	last.Needs.Mark = h.Insertion
	h.Joint, h.Fitting, h.Port = last.ID, last.Sides[0].Thing, last.Sides[0].Port
	s.joints = append(s.joints, made...)
	return h
}

// tiePlain ties an end at a plain place: to an elbow or a coupling where two lines
// meet that are not one, to what hangs there, or to nothing.
func (c *counter) tiePlain(s *strand, e runEnd, p *job.Point) hold {
	where := c.placeAt(p)
	ends := c.ends[p.ID]
	if len(ends) == 1 {
		return c.tieHung(s, e, p, where)
	}
	first := ends[0].run
	m := mouth{side: Side{string(p.ID), e.port}, way: "stock", size: first.Size, state: stateOf(p.State), stated: true}
	kind := catalog.Kind{}
	if turn, ok := c.turnAt(p.ID); ok && turn > leastTurn && !c.sweeps(first.Stock) {
		kind = c.cornerKind(turn)
	} else {
		kind, m.side.Thing, m.state = c.straight, string(p.ID)+"/coupling", later(stateOf(first.State), stateOf(ends[1].run.State))
		if !c.coupled[p.ID] {
			c.coupled[p.ID] = true
			c.implied.pieces(c.part(&job.Part{Kind: kind.Kind}, first.Stock, []string{first.Size}), m.state, 1, m.side.Thing, where.room)
		}
	}
	m.stock, _ = c.shelf.Stock(first.Stock)
	m.thread = c.threadFor(first.Size, m.stock)
	made := c.join(fmt.Sprintf("%s/%s", p.ID, e.port), m, c.pipeEnd(e), false, where)
	return c.held(s, made, kind)
}

// tieHung ties an end to the first part that hangs at a plain place.
func (c *counter) tieHung(s *strand, e runEnd, p *job.Point, where place) hold {
	open := hold{PieceEnd: PieceEnd{Unknown: "what closes the open end"}}
	outlets := c.index.OutletsAt(p.ID)
	if len(outlets) == 0 {
		return open
	}
	o, pipe := outlets[0], c.pipeEnd(e)
	if len(o.Hang) > 0 {
		part, in := c.hung(o, 0)
		kind, _ := c.shelf.Kind(part.Kind)
		return c.held(s, c.join(hangID(o, 0)+"/"+in.side.Port, in, pipe, false, where), kind)
	}
	if o.Hose != nil {
		return c.held(s, c.join(string(o.Hose.ID)+"/in", c.hoseEnd(o, pipe), pipe, false, where), catalog.Kind{})
	}
	return open
}

// coupling is the kind of fitting that carries a line straight on and nothing else.
func (c *counter) coupling() catalog.Kind {
	for _, k := range c.kinds {
		if k.Group == catalog.Fitting && len(k.Roles) == 0 && k.Law.Name != "none" && len(k.Ports) == 2 && takesStock(k) &&
			k.Ports[0].Joint == k.Ports[1].Joint && k.Ports[0].Size == k.Ports[1].Size && turnOf(k) < 1 {
			return k
		}
	}
	return catalog.Kind{}
}

// cornerKind is the elbow for a turn in rad; none where the catalogue has none near it.
func (c *counter) cornerKind(turn float64) catalog.Kind {
	kind, off, ok := c.elbow(degrees(turn))
	if !ok || off > farOff {
		return catalog.Kind{}
	}
	return kind
}

func long(x float64) *unit.Length { return new(unit.Length(x)) }
