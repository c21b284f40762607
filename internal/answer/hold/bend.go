package hold

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// turnsBack is the angle from which no sweep makes a corner, 170°.
const turnsBack = 170 * math.Pi / 180

// bends tells the corners that are bent in the line itself: those of runs of stock that
// sweeps, and plain places where two such runs meet at an angle.
func (s *shop) bends() {
	for _, n := range s.order {
		n.bent = n.bentBy()
	}
	run := map[job.ID]*Run{}
	for i := range s.a.Runs {
		run[s.a.Runs[i].ID] = &s.a.Runs[i]
	}
	for _, n := range s.order {
		if n.bent == 0 {
			continue
		}
		b := s.bend(n)
		s.a.Bends = append(s.a.Bends, b)
		n.tangent = float64(b.Tangent)
		for _, e := range n.ends {
			run[e.bar.line.run.ID].Swept -= b.Saved / 2
		}
	}
}

// bentBy is the angle by which the line itself is bent at a node; 0 where a fitting
// turns it, or nothing.
func (n *node) bentBy() float64 {
	if len(n.ends) != 2 || len(n.pairs) > 0 || n.outlet {
		return 0
	}
	a, b := n.ends[0].bar.line.tube, n.ends[1].bar.line.tube
	if a != b || !a.sweeps || n.corner == 0 && n.kind.Law.Name != "none" {
		return 0
	}
	if n.corner > 0 {
		return n.corner
	}
	return math.Pi - geom.Angle(n.ends[0].bar.away[n.ends[0].end], n.ends[1].bar.away[n.ends[1].end])
}

// bend is the room and the radius of one. Two bends share the leg between them as their
// tangents ask; a fitting at the other end of a leg takes its body off it.
func (s *shop) bend(n *node) Bend {
	l := n.ends[0].bar.line
	b := Bend{ID: n.id, Run: l.run.ID, At: n.at, Turn: n.bent * 180 / math.Pi, Least: l.tube.radius, Ref: l.tube.stock.Ref}
	if l.tube.size.Radius > 0 {
		b.Ref = l.tube.size.Ref
	}
	if n.bent >= turnsBack {
		return b
	}
	own, room := math.Tan(n.bent/2), math.Inf(1)
	for _, e := range n.ends {
		leg, other := e.bar.b-e.bar.a, e.bar.at[1-e.end]
		if other.bent > 0 {
			room = min(room, leg/(own+math.Tan(min(other.bent, turnsBack)/2)))
			continue
		}
		room = min(room, (leg-s.bodyOf(other, l.tube))/own)
	}
	b.Room = unit.Length(max(0, room))
	b.Fits = b.Least > 0 && b.Room >= b.Least-geom.Tiny
	b.Radius = min(b.Least, b.Room)
	made := geom.Bend{Radius: float64(b.Radius), Turn: n.bent}
	b.Tangent, b.Saved = unit.Length(made.Tangent()), unit.Length(made.Saved())
	return b
}
