package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/show/scene"
)

// rulers are the chains along the walls that something is hung by: outside of the building where
// there is room on the paper and no other room, else in the room, for which a place is found
// when all else has its own.
func (p *planner) rulers(floor, low, high scene.Point) []*ruler {
	if !p.ruling() {
		return nil
	}
	room := p.spare(low, high)
	edges := box{floor[0] * p.scale, floor[1] * p.scale, high[0] * p.scale, high[1] * p.scale}
	var all []*ruler
	stations := p.stations()
	order := make([]int, 0, len(stations))
	for i, along := range stations {
		if len(along) > 0 {
			order = append(order, i)
		}
	}
	// Of two chains that cross, that of the wall where less stands goes into the room.
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(stations[b]), len(stations[a])) })
	for _, i := range order {
		w, along := p.walls[i], stations[i]
		r := p.ruled(w, along, false)
		r.whole = true
		if !p.outside(r) || slices.ContainsFunc(all, r.crosses) || !room.take(r, edges) {
			r = p.ruled(w, along, true)
			r.whole = room.endless() // the room's size stands on one of several leaves alone
		}
		all = append(all, r)
	}
	return all
}

// ruling says whether dimensions are drawn.
func (p *planner) ruling() bool { return p.working() && !p.given.Work.Bare && p.sheet.Scale > 0 }

// spare is what the paper has beyond a drawing, mm; where the drawing is too large for it in any
// case, and comes in parts, there is no end to it. Some may hang over the edge for nothing.
type spare struct {
	left  [2]float64
	taken [2][2]float64 // by axis, below and above
}

func (p *planner) spare(low, high scene.Point) *spare {
	s := &spare{}
	for k, size := range []float64{p.sheet.Width, p.sheet.Height} {
		// A margin about the drawing is kept by whoever lays it on a leaf.
		if s.left[k] = size - 2*(margin+1) - (high[k]-low[k])*p.scale; s.left[k] < 0 {
			s.left[0], s.left[1] = math.Inf(1), math.Inf(1)
			break
		}
	}
	return s
}

// endless says that the drawing comes in parts.
func (s *spare) endless() bool { return math.IsInf(s.left[0], 1) }

// take takes room for a chain beyond the edges of the drawing, with the whole if it can be;
// false where there is none.
func (s *spare) take(r *ruler, edges box) bool {
	for _, whole := range []bool{true, false} {
		r.whole = whole
		end := r.on(0, r.reach())
		axis := 0
		if math.Abs(r.out[1]) > math.Abs(r.out[0]) {
			axis = 1
		}
		over, side := end[axis]-[]float64{edges.x1, edges.y1}[axis], 1
		if r.out[axis] < 0 {
			over, side = []float64{edges.x0, edges.y0}[axis]-end[axis], 0
		}
		if axis == 0 || side == 1 {
			over -= margin
		}
		more := max(over-s.taken[axis][side], 0)
		if more > s.left[axis] {
			continue
		}
		s.left[axis] -= more
		s.taken[axis][side] += more
		return true
	}
	return false
}

// outside says whether a chain stands clear of every room and every wall.
func (p *planner) outside(r *ruler) bool {
	const steps = 12
	long := r.marks[len(r.marks)-1]
	for i := range steps + 1 {
		for _, off := range []float64{1, r.base, r.reach()} {
			at := p.metres(r.on(long*float64(i)/steps, off))
			if p.roomAt(at) != nil || p.inWall(at) {
				return false
			}
		}
	}
	return true
}

// crosses says whether a chain runs through another one outside: where a corner stands into the
// room, both walls have the same ground before them.
func (r *ruler) crosses(o *ruler) bool {
	const steps = 40
	if o.inside {
		return false
	}
	long, other := r.marks[len(r.marks)-1], o.marks[len(o.marks)-1]
	for i := range steps + 1 {
		for _, off := range []float64{r.base, r.reach()} {
			at := r.on(long*float64(i)/steps, off)
			by := scene.Point{at[0] - o.origin[0], at[1] - o.origin[1]}
			along, far := by[0]*o.dir[0]+by[1]*o.dir[1], by[0]*o.out[0]+by[1]*o.out[1]
			if along > 0 && along < other && far > 0 && far < o.reach() {
				return true
			}
		}
	}
	return false
}

// inWall says whether a place lies in the body of a wall.
func (p *planner) inWall(at scene.Point) bool {
	for _, w := range p.walls {
		if along, deep := w.seen(at); along > 0 && along < w.length && deep < -0.01 && deep > 0.01-w.thick {
			return true
		}
	}
	return false
}

// grown is an extent with the chains in it, but for what may hang over its edges; the bar of the
// scale stands below them, so high in metres.
func (p *planner) grown(low, high scene.Point, all []*ruler, bar float64) (scene.Point, scene.Point) {
	for _, r := range all {
		if r.inside {
			continue
		}
		over, under := r.reach()-margin, 0.0
		if r.out[1] < -0.7 {
			over, under = r.reach(), bar
		}
		for _, along := range []float64{0, r.marks[len(r.marks)-1]} {
			at := p.metres(r.on(along, max(over, 0)))
			at[1] -= under
			for k := range 2 {
				low[k], high[k] = min(low[k], at[k]), max(high[k], at[k])
			}
		}
	}
	return low, high
}

// dimensions draws the chains, and beside lines that end out in the room how far out they end.
func (p *planner) dimensions(all []*ruler) []scene.Item {
	var items []scene.Item
	for _, r := range all {
		if r.inside && !p.settled(r) {
			if r.whole = false; !p.settled(r) {
				p.hidden = true
				continue
			}
		}
		items = append(items, p.scaled(r)...)
	}
	if p.ruling() {
		for _, s := range p.spurs() {
			items = append(items, p.outlying(s)...)
		}
	}
	return items
}

// settled finds a chain in the room the place off its wall where it covers least.
func (p *planner) settled(r *ruler) bool {
	const most = 60.0
	best, least := 0.0, 40.0
	for off := 7.0; off < most; off += 1.5 {
		r.stand(off)
		words, line := r.bodies()
		cost := 0.15 * off
		for _, b := range words {
			cost += 3 * p.field.costUpTo(b.grown(0.2), least-cost)
		}
		for _, b := range line {
			if cost >= least {
				break
			}
			cost += 0.15 * min(p.field.cost(b), 5)
		}
		if cost < least {
			best, least = off, cost
		}
	}
	r.stand(best)
	return best > 0
}
