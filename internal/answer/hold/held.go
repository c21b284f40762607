package hold

import (
	"math"
	"slices"

	"dropleg/engine/solid"
	"dropleg/engine/unit"
)

// springs are the links of a stretch between two places, pressed one behind the other.
type springs struct {
	give    float64 // m/N, of all: sum of length over E A
	least   float64 // m², smallest section
	bows    float64 // N, under which the first of them bows between its supports
	unknown []string
}

// springsOf reads the links between two places; known is false without a modulus.
func (x *span) springsOf(from, to float64) (p springs, known bool) {
	p.least, p.bows = math.Inf(1), math.Inf(1)
	for i := range x.chain.links {
		a, b := max(from, x.chain.at[i]), min(to, x.chain.at[i+1])
		if b <= a {
			continue
		}
		bar := x.chain.links[i].bar
		t := bar.line.tube
		area, _, err := solid.Section(t.od, t.wall)
		if err != nil || t.material.Modulus <= 0 {
			p.unknown = []string{"modulus"}
			return p, false
		}
		p.give += (b - a) / (float64(t.material.Modulus) * area)
		p.least = min(p.least, area)
		if span := bar.allowed(); !math.IsInf(span, 1) {
			if at, err := solid.Bows(t.material.Modulus, t.od, t.wall, unit.Length(span)); err == nil {
				p.bows = min(p.bows, at)
			}
		}
	}
	return p, p.give > 0
}

// holdEnds tells a stretch that is held at both ends: what it wants to grow presses it
// together, push = growth over give, as solid.Restrained has it for one size.
func (s *shop) holdEnds(x *span) {
	if x.growth <= rulePlay.Value {
		return
	}
	c := x.chain
	from, to := c.at[x.i], c.at[x.k]
	h := Held{
		Where: x.id, Why: "both-ends-fixed", At: c.place((from + to) / 2), Runs: x.runs(),
		Growth: unit.Length(x.growth), State: x.state(), Unknown: x.unknown,
	}
	if p, known := x.springsOf(from, to); known {
		push := x.growth / p.give
		h.Push, h.Stress = &push, new(unit.Stress(push/p.least))
		if !math.IsInf(p.bows, 1) {
			h.BowsAt = &p.bows
		}
	} else {
		h.Unknown = append(append([]string{}, h.Unknown...), p.unknown...)
	}
	s.a.Held = append(s.a.Held, h)
	s.loop(x)
}

// holdLeg tells a leg that is too short for what comes to it. It is bent by what the
// stretch, pressed against it, still grows: of two springs one behind the other, with
// the pushes b of the leg bent by all of it and r of the stretch held altogether, the
// push is b r/(b + r), and the leg's stress is the like share of its own.
func (s *shop) holdLeg(x *span, n *node, i int, t *tube, leg Leg) {
	c := x.chain
	h := Held{
		Where: leg.At, Why: "leg-short", At: n.at, Runs: x.runs(), Growth: leg.Moves,
		Needed: leg.Needed, There: new(leg.There), State: x.state(),
	}
	if !slices.Contains(h.Runs, leg.Run) {
		h.Runs = append(h.Runs, leg.Run)
	}
	p, known := x.springsOf(x.comes(c.at[i]))
	if !known || t.material.Modulus <= 0 {
		h.Unknown = []string{"modulus"}
		s.a.Held = append(s.a.Held, h)
		s.loop(x)
		return
	}
	held := float64(leg.Moves) / p.give
	push, stress := held, unit.Stress(held/p.least)
	if leg.There > 0 {
		bent, err1 := solid.LegForce(t.material.Modulus, t.od, t.wall, leg.Moves, leg.There)
		own, err2 := solid.LegStress(t.material.Modulus, t.od, leg.Moves, leg.There)
		if err1 == nil && err2 == nil && bent+held > 0 && !math.IsInf(bent, 1) {
			push, stress = bent*held/(bent+held), own*unit.Stress(held/(bent+held))
		}
	}
	h.Push, h.Stress = &push, &stress
	s.a.Held = append(s.a.Held, h)
	s.loop(x)
}

// loop tells the loops that would let a stretch grow, once for each: so many that no
// leg of one is longer than the spacing of the line, so that a loop needs no support of
// its own. They share the stretch evenly, between anchors.
func (s *shop) loop(x *span) {
	if n := len(s.a.Loops); n > 0 && s.a.Loops[n-1].Stretch == x.id {
		return
	}
	c := x.chain
	from, to := c.at[x.i], c.at[x.k]
	t := c.linkAt((from + to) / 2).bar.line.tube
	all, known := t.leg(x.growth)
	if !known {
		return
	}
	count := 1.0
	if spacing := c.spacing(from, to); !math.IsInf(spacing, 1) {
		one := float64(solid.LoopLeg(unit.Length(all))) / spacing
		count = min(max(1, math.Ceil(one*one-1e-9)), 1000)
	}
	growth := x.growth / count
	leg, _ := t.leg(growth)
	l := Loop{
		Stretch: x.id, Count: int(count), Growth: unit.Length(growth), Leg: solid.LoopLeg(unit.Length(leg)),
		Radius: solid.LoopRadius(unit.Length(leg)), Offset: unit.Length(leg), Ref: t.legRef,
	}
	for k := range l.Count {
		l.Places = append(l.Places, unit.Length((to-from)*(float64(k)+0.5)/count))
	}
	s.a.Loops = append(s.a.Loops, l)
}

// Within is the same growth in so many loops that no leg of one is longer than there is room
// for: a leg goes with the root of what it takes up.
func (l *Loop) Within(room unit.Length) Loop {
	out := *l
	if l.Leg <= room || !(room > 0) {
		return out
	}
	was, long := float64(l.Count), 2*float64(l.Count)*float64(l.Places[0])
	count := math.Ceil(was*float64(l.Leg/room)*float64(l.Leg/room) - 1e-9)
	less := unit.Length(math.Sqrt(was / count))
	out.Count, out.Growth = int(count), l.Growth*unit.Length(was/count)
	out.Leg, out.Radius, out.Offset = l.Leg*less, l.Radius*less, l.Offset*less
	out.Places = nil
	for k := range out.Count {
		out.Places = append(out.Places, unit.Length(long*(float64(k)+0.5)/count))
	}
	return out
}
