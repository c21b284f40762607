package hold

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/solid"
	"dropleg/engine/unit"
)

// settleLegs looks at every place that moves and at the legs that have to give way:
// once to move supports off for those that are too short, once to tell what is there,
// for a support that leaves one turn comes nearer to another.
func (s *shop) settleLegs() {
	for _, tell := range []bool{false, true} {
		for _, x := range s.spans {
			if x.held && tell {
				s.holdEnds(x)
			}
			if math.IsNaN(x.still) && !x.loose {
				continue
			}
			for i := x.i; i <= x.k; i++ {
				s.settleNode(x, i, tell)
			}
		}
	}
}

// settleNode looks at the legs that begin at one node of a stretch.
func (s *shop) settleNode(x *span, i int, tell bool) {
	n := x.chain.nodes[i]
	moves := x.moves(x.chain.at[i])
	if moves <= rulePlay.Value || n.fixed || n.flexes {
		return
	}
	for _, e := range n.ends {
		switch {
		case e.bar.chain == x.chain:
		case tell:
			s.tellLeg(x, i, e, moves)
		default:
			s.easeLeg(x, i, e, moves)
		}
	}
}

// behind is how far from a node the line is held on the other side of it than the leg:
// on the leg's own chain where that passes the node, around the corner where the node
// is a turn. A branch leaves from line that is held on its own.
func (x *span) behind(i int, e barEnd) float64 {
	c, at := x.chain, x.chain.at[i]
	if _, passes := x.chain.nodes[i].pairs[e]; passes {
		c, at = e.bar.chain, e.where()
	} else if len(x.chain.nodes[i].pairs) > 0 || i > 0 && i < len(c.nodes)-1 {
		return 0
	}
	best := c.long
	for _, k := range c.clips {
		if away := (at - k.at) * e.sign(); c != e.bar.chain || away >= 0 {
			best = min(best, math.Abs(k.at-at))
		}
	}
	return best
}

// easeLeg moves the support that ends a leg where the leg is too short, and where that
// one went, the next. What a valve, an outlet or an open end asked for stays, and so
// does what holds fast.
func (s *shop) easeLeg(x *span, i int, e barEnd, moves float64) {
	needed, known := e.bar.line.tube.leg(moves)
	for range 3 {
		r := s.reachOf(e, x.chain.direction(i))
		if !known || r.clip == nil || r.there >= needed-geom.Tiny || r.clip.fast {
			return
		}
		if r.clip.rule != ruleTurn.Name && r.clip.rule != ruleSpread.Name {
			return
		}
		allowed := e.bar.hangs()
		for _, other := range x.chain.nodes[i].ends {
			if len(x.chain.nodes[i].ends) == 2 {
				allowed = min(allowed, other.bar.hangs())
			}
		}
		if math.IsInf(allowed, 1) {
			return
		}
		room := allowed - x.behind(i, e)
		if !s.shift(room, &r, needed) && !s.without(e, x.chain.direction(i), room, &r) {
			return
		}
	}
}

// without takes the support that ends a leg away where it is the last before a turn, if
// what holds the line round that turn, a support, a part or the line that a swan neck hangs
// on, comes within the spacing.
func (s *shop) without(e barEnd, dir geom.Point, room float64, r *reach) bool {
	c := r.chain
	if next, _ := c.stop(r.at, r.sign, false); next != nil {
		return false
	}
	before := slices.Clone(c.clips)
	c.drop(r.clip)
	far := s.reachOf(e, dir)
	tighter := max(0, e.bar.hangs()-min(c.spacing(0, c.long), far.chain.spacing(0, far.chain.long)))
	if far.open || far.there <= r.there+geom.Tiny || far.path > room-tighter {
		c.clips = before
		return false
	}
	if far.clip != nil {
		far.clip.moved = true
	}
	return true
}

// tellLeg holds the leg that begins at a bar's end against what it has to take up, and
// where it ends at a tee the line there against what is left to it.
func (s *shop) tellLeg(x *span, i int, e barEnd, moves float64) {
	dir := x.chain.direction(i)
	r := s.reachOf(e, dir)
	share := s.share(&r, e.bar.line.tube, dir)
	s.tellReach(x, x.chain.nodes[i], i, e, &r, moves*share)
	if alone, known := e.bar.line.tube.leg(moves); known && r.tee != nil {
		s.a.Legs[len(s.a.Legs)-1].Alone = new(unit.Length(alone))
	}
	left := moves * (1 - share)
	if r.tee == nil || left <= rulePlay.Value {
		return
	}
	for _, other := range r.tee.ends {
		if other.bar.chain != r.chain {
			behind := s.reachOf(other, dir)
			s.tellReach(x, r.tee, i, other, &behind, left)
		}
	}
}

// tellReach tells one leg, that begins at a node because node i of a stretch moves.
func (s *shop) tellReach(x *span, n *node, i int, e barEnd, r *reach, moves float64) {
	t := e.bar.line.tube
	leg := Leg{
		At: n.id, Stretch: x.id, Run: e.bar.line.run.ID, Moves: unit.Length(moves), Ref: t.legRef,
		There: unit.Length(r.there), Until: r.until, Moved: r.clip != nil && r.clip.moved,
	}
	if needed, known := t.leg(moves); known {
		leg.Needed = new(unit.Length(needed))
		leg.Short = !r.open && moves > rulePlay.Value && r.there < needed*nearly
		if takes, err := solid.Takes(t.constant, t.od, leg.There); err == nil && !r.open {
			leg.Takes = &takes
		}
	}
	s.a.Legs = append(s.a.Legs, leg)
	if r.clip != nil {
		s.untils = append(s.untils, until{len(s.a.Legs) - 1, r.clip})
	}
	if leg.Short {
		s.holdLeg(x, n, i, t, leg)
	}
}

// share is how much of a movement a leg takes up that ends at a tee, the line that goes
// through there taking the rest: of springs one behind the other, each gives way as it
// is soft, and a leg of length L is as stiff as E I/L³. It is all, where the leg ends
// elsewhere, or where that line lies along the movement or is of unknown make.
func (s *shop) share(r *reach, t *tube, dir geom.Point) float64 {
	if r.tee == nil {
		return 1
	}
	behind := 0.0
	for _, other := range r.tee.ends {
		if other.bar.chain == r.chain {
			continue
		}
		far := s.reachOf(other, dir)
		if far.open {
			continue
		}
		k := other.bar.line.tube.stiff(t, far.there)
		if k == 0 {
			return 1
		}
		behind += k
	}
	own := t.stiff(t, r.there)
	if own == 0 { // no leg at all: what is behind it takes everything
		return 0
	}
	return behind / (behind + own)
}

// stiff is E I/L³ of a leg, E against that of another tube where both are of a material
// without a modulus; 0 where it cannot be told, or the leg is none.
func (t *tube) stiff(as *tube, leg float64) float64 {
	_, second, err := solid.Section(t.od, t.wall)
	modulus := float64(t.material.Modulus)
	if as.material.Modulus == 0 || modulus == 0 {
		if t.material.Name != as.material.Name {
			return 0
		}
		modulus = 1
	}
	if err != nil || leg < geom.Tiny {
		return 0
	}
	return modulus * second / (leg * leg * leg)
}

// nearly is the share of the leg needed from which it is enough: coefficients of growth
// are good to a few per cent, and the leg goes with the root of it.
const nearly = 0.97

// until is a leg that a support ends: its id comes with the numbering.
type until struct {
	leg  int
	clip *clip
}
