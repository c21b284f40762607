package parts

import (
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// section is the pipe between two fittings of a strand, before it is cut.
type section struct {
	from, to   hold
	begin, end float64 // m along the strand, from centre to centre
	bends      []turning
}

// strand joins and cuts one strand: its ends to what is there, its corners to elbows
// or bends, and what is longer than the stock is sold to couplings.
func (c *counter) strand(s *strand) {
	at := section{from: c.tie(s, c.begin(s))}
	sweeps := c.sweeps(s.stock.Stock)
	for _, t := range c.turnings(s) {
		if sweeps {
			at.bends = append(at.bends, t)
			continue
		}
		where := place{&t.at, c.roomAt(t.at, true)}
		at.to, at.end = c.tieCorner(s, t, t.in, where), t.along
		c.cut(s, at)
		at = section{from: c.tieCorner(s, t, t.out, where), begin: t.along}
	}
	at.to, at.end = c.tieFar(s, c.end(s)), s.long
	c.cut(s, at)
}

// tieFar ties the far end of a strand, whose joints then come from the pipe outwards.
func (c *counter) tieFar(s *strand, e runEnd) hold {
	before := len(s.joints)
	h := c.tie(s, e)
	slices.Reverse(s.joints[before:])
	return h
}

// tieCorner ties the pipe to one port of the elbow at a corner.
func (c *counter) tieCorner(s *strand, t turning, port string, where place) hold {
	return c.tieTo(s, Side{t.id, port}, where, c.cornerKind(t.turn))
}

// tieTo ties the pipe to a fitting of its own stock and size.
func (c *counter) tieTo(s *strand, at Side, where place, kind catalog.Kind) hold {
	fitting := mouth{side: at, way: "stock", stock: s.stock, size: s.legs[0].run.Size, state: s.state, stated: true}
	fitting.thread = c.threadFor(fitting.size, s.stock)
	pipe := fitting
	pipe.way, pipe.side = "pipe", Side{}
	made := c.join(at.Thing+"/"+at.Port, fitting, pipe, false, where)
	return c.held(s, made, kind)
}

// cut divides a section into pieces no longer than the stock is sold.
func (c *counter) cut(s *strand, sec section) {
	known := s.allKnown(sec.begin, sec.end)
	bends := c.bend(s, sec)
	saved := 0.0
	for _, b := range bends {
		saved += float64(b.Saved)
	}
	net := sec.end - sec.begin - saved - float64(sec.from.TakeOut+sec.to.TakeOut)
	lengths, half := c.divide(s, net, known)
	begin, from := sec.begin, sec.from
	for i, l := range lengths {
		p := Piece{Stock: s.legs[0].run.Stock, Size: s.legs[0].run.Size, State: s.state}
		run := s.legAt(begin)
		c.pieceNo[run.ID]++
		p.ID, p.Run = within(run.ID, "piece", c.pieceNo[run.ID]), run.ID
		to, end := sec.to, sec.end
		if i+1 < len(lengths) {
			end = begin + l + float64(from.TakeOut) + half
			for _, b := range bends {
				if b.along >= begin && b.along <= end {
					end += float64(b.Saved)
				}
			}
			to = c.tieCoupling(s, run, end, "in")
		}
		c.piece(s, &p, section{from, to, begin, end, nil}, l, bends, known)
		begin = end
		if i+1 < len(lengths) {
			from = c.tieCoupling(s, run, end, "out")
		}
	}
}

// divide says how long the pieces of a section are whose pipe measures net metres in
// one: full lengths as sold and a rest, of which the last two share where it is too
// short; half is the take-out of the couplings between them on either side.
func (c *counter) divide(s *strand, net float64, known bool) (lengths []float64, half float64) {
	longest := 0.0
	for _, l := range s.stock.Lengths {
		longest = max(longest, float64(l))
	}
	if !known || longest <= 0 || net <= longest+1e-9 {
		return []float64{net}, 0
	}
	if e, ok := c.takeOutRow(s, c.straight.Kind); ok {
		half = float64(e.TakeOut)
	}
	// n pieces and n−1 couplings of 2·half between them make up net.
	n := int(math.Ceil((net + 2*half) / (longest + 2*half) * (1 - 1e-12)))
	rest := net - float64(n-1)*(longest+2*half)
	for range n - 1 {
		lengths = append(lengths, longest)
	}
	if rest < leastPiece {
		rest = (longest + rest) / 2
		lengths[n-2] = rest
	}
	return append(lengths, rest), half
}

// tieCoupling ties a piece to a coupling within a line.
func (c *counter) tieCoupling(s *strand, run *job.Run, along float64, port string) hold {
	var where place
	if at, ok := s.at(along); ok {
		where = place{&at, c.roomAt(at, true)}
	}
	kind := c.straight
	if port == "in" {
		c.couplingNo[run.ID]++
		thing := within(run.ID, "coupling", c.couplingNo[run.ID])
		c.implied.pieces(c.part(&job.Part{Kind: kind.Kind}, run.Stock, []string{run.Size}), s.state, 1, thing, where.room)
	}
	thing := within(run.ID, "coupling", c.couplingNo[run.ID])
	return c.tieTo(s, Side{thing, port}, where, kind)
}

// piece fills in and keeps one piece of net metres.
func (c *counter) piece(s *strand, p *Piece, sec section, net float64, bends []swept, known bool) {
	p.From, p.To = sec.from.PieceEnd, sec.to.PieceEnd
	p.Spans = s.spans(sec.begin, sec.end, known)
	for _, b := range bends {
		if b.along >= sec.begin && b.along <= sec.end && !c.bent[b.ID] {
			c.bent[b.ID] = true
			b.Begins = unit.Length(b.along-b.tangent-sec.begin) - p.From.TakeOut
			for _, before := range p.Bends {
				b.Begins -= before.Saved
			}
			p.Bends = append(p.Bends, b.Bend)
		}
	}
	if known {
		p.CentreToCentre = long(sec.end - sec.begin)
		p.Cut = long(max(net, 0))
		p.Missing = unit.Length(max(-net, 0))
		p.TooShort = net < float64(p.From.Insertion+p.To.Insertion)-1e-9 || net <= 0
		if s.stock.Form == "coil" {
			p.Allowance = straightening * *p.Cut
		}
	}
	c.explain(p, s)
	c.situate(s, p, sec)
	for end, h := range map[string]hold{"from": sec.from, "to": sec.to} {
		if h.joint != nil {
			h.joint.Sides[1] = Side{p.ID, end}
		}
	}
	c.cuts = append(c.cuts, p)
}
