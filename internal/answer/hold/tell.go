package hold

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// spot is a support on its run.
type spot struct {
	clip  *clip
	link  *link
	along float64
	at    geom.Point
}

// tell numbers the supports by run, and puts everything that was found into the answer.
func (s *shop) tell() {
	byRun := map[job.ID][]spot{}
	for _, c := range s.chains {
		for _, k := range c.clips {
			l := c.linkAt(k.at)
			id := l.bar.line.run.ID
			byRun[id] = append(byRun[id], spot{k, l, l.along(k.at), c.place(k.at)})
		}
	}
	for _, l := range s.lines {
		spots := byRun[l.run.ID]
		slices.SortStableFunc(spots, func(a, b spot) int { return cmp.Compare(a.along, b.along) })
		for i, at := range spots {
			at.clip.id = fmt.Sprintf("%s/clip-%d", l.run.ID, i+1)
			s.a.Supports = append(s.a.Supports, s.support(l, at))
		}
		s.gaps(l, spots)
	}
	for _, x := range s.spans {
		s.a.Stretches = append(s.a.Stretches, x.tell())
	}
	for _, u := range s.untils {
		s.a.Legs[u.leg].Until = u.clip.id
	}
}

// support is a support as it is answered.
func (s *shop) support(l *line, at spot) Support {
	out := Support{
		ID: at.clip.id, Run: l.run.ID, Along: unit.Length(at.along), At: at.at, On: s.on(at.at, l.run.Support),
		Kind: "sliding", Rule: at.clip.rule, Direction: "horizontal", State: l.state, Moved: at.clip.moved,
	}
	if at.clip.fast {
		out.Kind = "fixed"
	}
	if at.link.bar.steep {
		out.Direction = "vertical"
	}
	return out
}

// gaps tells where along a run two supports, or a support and an end of the run, are
// farther apart than allowed.
func (s *shop) gaps(l *line, spots []spot) {
	last := 0.0
	for i := 0; i <= len(spots); i++ {
		next := l.long
		if i < len(spots) {
			next = spots[i].along
		}
		if allowed := s.strictest(l, last, next); next-last > allowed+1e-6 {
			g := Gap{Run: l.run.ID, From: unit.Length(last), To: unit.Length(next), Allowed: unit.Length(allowed)}
			for _, b := range l.bars {
				g.Bend = g.Bend || b.a > last && b.a < next && b.at[0].bent > 0
			}
			s.a.Gaps = append(s.a.Gaps, g)
		}
		last = next
	}
}

// strictest is the least spacing of the bars of a run between two places along it.
func (s *shop) strictest(l *line, from, to float64) float64 {
	least := math.Inf(1)
	for _, b := range l.bars {
		if b.b > from+1e-9 && b.a < to-1e-9 {
			least = min(least, b.allowed())
		}
	}
	return least
}
