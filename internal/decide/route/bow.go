package route

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/job"
)

// bow is an expansion loop: where a main is led out of its line, level, so that no water
// stands in it, and back.
type bow struct {
	at         geom.Point // the middle of it, on the line
	deep, wide float64
}

// How a loop is made, in metres: common practice of the trade, with no source beside it.
const (
	bowDeep  = 1.2  // no deeper: what hangs so far off the wall wants a bracket of its own
	bowWide  = 0.5  // share of its depth that it is wide
	bowLeast = 0.3  // and no narrower
	bowAside = 3.0  // so far from where it would be best it may stand, where that is taken
	bowHeld  = 0.15 // deeper than it bends, for the support before its far corner
	bowSpare = 1.1  // times as deep as growth asks, for sizes are picked later
	bowClear = 1.0  // from where a main begins, for the valves there
)

// bow notes the loops that mains want which push at what stands at them; it says whether any
// does.
func (l *layout) bow(a *artist, held *hold.Answer) (more bool) {
	ix := job.NewIndex(a.job)
	for i := range held.Loops {
		x := stretchOf(held, held.Loops[i].Stretch)
		if x == nil || float64(x.Length) < 2*bowDeep || !ofRoles(ix, x, "main", "branch", "ring") || slices.ContainsFunc(x.Pieces, func(p hold.Piece) bool { return !a.drawn[p.Run] && a.plant[p.Run] }) {
			continue
		}
		loop := held.Loops[i].Within((bowDeep - bowHeld) / bowSpare) // that it is no deeper as drawn
		b := bow{deep: math.Max(bowSpare*float64(loop.Leg)+bowHeld, 2*a.bend)}
		// Its sides grow too, and either may push at the piece between them: a leg goes with the
		// root of what it takes up.
		side := float64(x.Growth/x.Length) * b.deep / float64(loop.Growth)
		b.wide = math.Max(math.Max(bowLeast, bowWide*b.deep), math.Max(bowSpare*float64(loop.Offset)*math.Sqrt(side)+bowHeld, 2*a.bend))
		for _, far := range loop.Places {
			var ok bool
			if b.at, ok = placeOn(ix, x, float64(far)); ok {
				l.bows, more = append(l.bows, b), true
			}
		}
	}
	return more
}

// placeOn is a place so far along a stretch.
func placeOn(ix *job.Index, x *hold.Stretch, far float64) (geom.Point, bool) {
	for _, p := range x.Pieces {
		long := math.Abs(float64(p.To - p.From))
		if far <= long {
			along := float64(p.From) + far
			if p.To < p.From {
				along = float64(p.From) - far
			}
			at, _, ok := geom.OnPath(ix.Centreline(ix.Run(p.Run)), along)
			return at, ok
		}
		far -= long
	}
	return geom.Point{}, false
}

// bowed leads a path out of its line where loops are wanted on it and there is room, off what
// begins on it.
func (a *artist) bowed(x *line, path []geom.Point) []geom.Point {
	var keep []geom.Point
	for i := range a.lines {
		if y := &a.lines[i]; y.from >= 0 && &a.lines[y.from] == x {
			keep = append(keep, y.path[0])
		}
	}
	for _, e := range x.legs {
		keep = append(keep, e.at)
	}
	for _, b := range a.bows {
		path = a.ledOut(path, keep, b)
	}
	return path
}

// ledOut is a path with one loop more; as it was where the loop is not on it or has no room.
func (a *artist) ledOut(path, keep []geom.Point, b bow) []geom.Point {
	wide := b.wide
	for i := 1; i < len(path); i++ {
		p, q := path[i-1], path[i]
		hit := geom.NearestOnSegment(b.at, p, q)
		long := p.Distance(q)
		if hit.Distance > aside || long < wide || math.Abs(q[2]-p[2]) > long/2 {
			continue
		}
		on := q.Minus(p).Unit()
		for step := 0.0; step <= bowAside; step += bowLeast / 2 {
			for _, by := range []float64{step, -step} {
				from := hit.Along + by - wide/2
				first := tapRoom
				if i == 1 {
					first = bowClear
				}
				if from < first || from+wide > long-tapRoom || a.taken(keep, p.Plus(on.Times(from)), p.Plus(on.Times(from+wide))) {
					continue
				}
				if round := a.round(p.Plus(on.Times(from)), p.Plus(on.Times(from+wide)), b.deep); round != nil {
					return slices.Concat(path[:i], round, path[i:])
				}
			}
		}
	}
	return path
}

// taken says whether something begins on a piece of line, or so near that its neck does.
func (a *artist) taken(keep []geom.Point, from, to geom.Point) bool {
	room := tapRoom + 2*a.beside
	for _, w := range a.wide {
		room = math.Max(room, tapRoom+w)
	}
	return slices.ContainsFunc(keep, func(p geom.Point) bool {
		return geom.NearestOnSegment(p, from, to).Distance < room
	})
}

// round is the way round a loop, on the side of the room on which nothing stands; nil for none.
func (a *artist) round(from, to geom.Point, deep float64) []geom.Point {
	on := to.Minus(from).Plan()
	side := geom.Flat{-on[1], on[0]}.Times(1 / on.Length())
	for _, way := range []float64{1, -1} {
		out := geom.Point{side[0] * way * deep, side[1] * way * deep, 0}
		round := []geom.Point{from, from.Plus(out), to.Plus(out), to}
		for k := range round { // it falls all the way round
			round[k][2] = from[2] + (to[2]-from[2])*float64(k)/3
		}
		if a.isFree(round) {
			return round
		}
	}
	return nil
}

// isFree says whether a loop lies in its room, off what stands there and off other lines.
func (a *artist) isFree(round []geom.Point) bool {
	room := spaceAt(a.maze.spaces, round[0])
	if room < 0 {
		return false
	}
	for k := 1; k < len(round); k++ {
		p, q := round[k-1], round[k]
		if !geom.Contains(a.maze.spaces[room].faces, q.Plan()) || a.maze.hit(p, q) {
			return false
		}
	}
	for i := range a.lines {
		for n := 1; n < len(a.lines[i].path); n++ {
			p, q := a.lines[i].path[n-1], a.lines[i].path[n]
			if math.Min(p[2], q[2]) > round[0][2]+clearSide || math.Max(p[2], q[2]) < round[0][2]-clearSide {
				continue
			}
			if near(p, q, round[1], round[2]) || near(p, q, round[0].Plus(round[1]).Times(0.5), round[1]) || near(p, q, round[3].Plus(round[2]).Times(0.5), round[2]) {
				return false
			}
		}
	}
	return true
}

// near says whether two pieces of line come too near on the plan.
func near(p, q, r, s geom.Point) bool {
	return geom.SegmentsMeet(p.Plan(), q.Plan(), r.Plan(), s.Plan()) || between(p.Plan(), q.Plan(), r.Plan(), s.Plan()) < clearSide
}
