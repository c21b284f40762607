package parts

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// swept is a bend with its corner's place along the strand and what of each leg it
// takes up, in m.
type swept struct {
	Bend
	along, tangent float64
}

// mostTurn is the turn from which no sweep is made, as in package geom: 170°.
const mostTurn = 170 * math.Pi / 180

// bend sweeps the corners of a section at the least radius of its stock, or at what
// there is room for between its neighbours and the faces of the fittings. A sweep that
// is drawn as one, in turns of less than a corner's, lies as it is drawn.
func (c *counter) bend(s *strand, sec section) []swept {
	least := float64(s.stock.LeastRadius(s.size))
	var list []swept
	half := func(i int) float64 { return math.Tan(math.Min(sec.bends[i].turn, mostTurn) / 2) }
	for i, t := range sec.bends {
		before, shareBefore := t.along-sec.begin-sec.from.face(), half(i)
		if i > 0 {
			before, shareBefore = t.along-sec.bends[i-1].along, half(i)+half(i-1)
		}
		after, shareAfter := sec.end-sec.to.face()-t.along, half(i)
		if i+1 < len(sec.bends) {
			after, shareAfter = sec.bends[i+1].along-t.along, half(i)+half(i+1)
		}
		fits := max(0, min(before/shareBefore, after/shareAfter))
		b := geom.Bend{Radius: min(least, fits), Turn: t.turn}
		if t.turn >= mostTurn {
			b.Radius = 0
		}
		one := swept{Bend: Bend{ID: t.id, Turn: degrees(t.turn), Radius: unit.Length(b.Radius), Tight: fits < least-1e-9}, along: t.along}
		if b.Radius > 0 {
			one.Arc, one.Saved, one.tangent = unit.Length(b.Arc()), unit.Length(b.Saved()), b.Tangent()
		}
		list = append(list, one)
	}
	return list
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }
