package route

import (
	"container/heap"
	"math"
)

// cover finds, for every place, the sides whose every standing place the hose reaches.
func (f *floor) cover(all []place, hose float64) {
	reach := make([]float64, len(all)) // of the hose along the floor
	from := make([]int, len(all))
	step := make([]float64, len(all)) // to the first free square
	for i := range all {
		p := &all[i]
		reach[i] = hose - math.Abs(p.at[2]-handUp)
		if !p.overhead {
			reach[i] = hose - f.up(p) - handUp
		}
		from[i], step[i] = f.freeBeside(p)
	}
	for k := range f.sides {
		worst := make([]float64, len(all))
		for _, at := range f.sides[k].at {
			dist := f.distances(f.square(at), hose)
			for i := range all {
				d := math.Inf(1)
				if from[i] >= 0 {
					d = dist[from[i]] + step[i]
				}
				worst[i] = math.Max(worst[i], d)
			}
		}
		for i := range all {
			if worst[i] <= reach[i] {
				all[i].covers = append(all[i].covers, k)
				all[i].far += worst[i]
			}
		}
	}
}

// up is how high a place is over its floor.
func (f *floor) up(p *place) float64 {
	if room := spaceAt(f.spaces, p.at); room >= 0 {
		return p.at[2] - f.spaces[room].floor
	}
	return p.at[2]
}

// freeBeside is the free square nearest to a place, at most so far that a hose hangs over
// a bench.
func (f *floor) freeBeside(p *place) (square int, off float64) {
	const most = 1.2
	square, off = -1, most
	n := int(most/cell) + 1
	c := f.square(p.at.Plan())
	if c < 0 {
		return -1, 0
	}
	for y := max(0, c/f.wide-n); y <= min(f.deep-1, c/f.wide+n); y++ {
		for x := max(0, c%f.wide-n); x <= min(f.wide-1, c%f.wide+n); x++ {
			if k := y*f.wide + x; f.free[k] {
				if d := f.middle(k).Distance(p.at.Plan()); d < off {
					square, off = k, d
				}
			}
		}
	}
	return square, off
}

// distances from a square to all within a length, from free square to free square, across
// corners only where both beside them are free.
func (f *floor) distances(from int, most float64) []float64 {
	dist := make([]float64, len(f.free))
	for i := range dist {
		dist[i] = math.Inf(1)
	}
	if from < 0 {
		return dist
	}
	dist[from] = 0
	q := squares{{from, 0}}
	for len(q) > 0 {
		s := heap.Pop(&q).(reachedSquare)
		if s.far > dist[s.square] {
			continue
		}
		x, y := s.square%f.wide, s.square/f.wide
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				if x+dx < 0 || y+dy < 0 || x+dx >= f.wide || y+dy >= f.deep || dx == 0 && dy == 0 {
					continue
				}
				to := (y+dy)*f.wide + x + dx
				if !f.free[to] || !f.free[y*f.wide+x+dx] || !f.free[(y+dy)*f.wide+x] {
					continue
				}
				if d := s.far + cell*math.Hypot(float64(dx), float64(dy)); d <= most && d < dist[to] {
					dist[to] = d
					heap.Push(&q, reachedSquare{to, d})
				}
			}
		}
	}
	return dist
}

type reachedSquare struct {
	square int
	far    float64
}

// squares is the order in which they are looked at, the nearest first.
type squares []reachedSquare

func (q squares) Len() int           { return len(q) }
func (q squares) Less(i, j int) bool { return q[i].far < q[j].far }
func (q squares) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }

// Push and Pop are for container/heap.
func (q *squares) Push(x any) { *q = append(*q, x.(reachedSquare)) }

func (q *squares) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}
