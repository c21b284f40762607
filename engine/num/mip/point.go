package mip

import (
	"math"
	"slices"
)

// round makes a point from the relaxation: each whole column to the nearest whole
// value that no row forbids, then the dear ones down as far as the rows let them.
func (s *search) round() {
	g, n := s.dict, s.m.n
	x := slices.Clone(g.x[:n])
	for j := range n {
		if s.m.whole[j] {
			x[j] = s.roundOne(j, x[j])
		}
	}
	s.offer(x)
}

// roundOne rounds towards the side where all rows gain, when there is one.
func (s *search) roundOne(j int, v float64) float64 {
	if off(v) <= whollyFrom {
		return math.Round(v)
	}
	up, down := s.locks(j)
	switch {
	case up == 0:
		return math.Ceil(v)
	case down == 0:
		return math.Floor(v)
	}
	return math.Round(v)
}

// locks counts the rows that a step of the column up, or down, can break.
func (s *search) locks(j int) (up, down int) {
	for _, i := range s.m.touching[j] {
		for _, e := range s.m.rows[i] {
			if e.Column != j {
				continue
			}
			v := s.m.n + i
			least, most := extremes(s.m.rows[i], s.m.low, s.m.high)
			below, above := s.m.low[v] > least, s.m.high[v] < most
			if e.Value > 0 && above || e.Value < 0 && below {
				up++
			}
			if e.Value > 0 && below || e.Value < 0 && above {
				down++
			}
		}
	}
	return up, down
}

// offer takes a point as the best one when it keeps to everything asked and is
// better. Columns that need not be whole stay as the relaxation has them.
func (s *search) offer(x []float64) {
	if !s.asked.keeps(x) {
		return
	}
	s.trim(x)
	value := s.asked.value(x)
	if value >= s.bestValue || !s.asked.keeps(x) {
		return
	}
	s.best, s.bestValue = slices.Clone(x), value
	s.tell()
}

// mostTrims ends the walk of a column with hardly any limit.
const mostTrims = 1000

// trim takes steps off columns that cost something while no row breaks.
func (s *search) trim(x []float64) {
	for j := range s.m.n {
		if !s.m.whole[j] || s.m.cost[j] == 0 {
			continue
		}
		step := -math.Copysign(1, s.m.cost[j])
		for range mostTrims {
			x[j] += step
			if x[j] < s.m.low[j] || x[j] > s.m.high[j] {
				x[j] -= step
				break
			}
			if !s.rowsHold(j, x) {
				x[j] -= step
				break
			}
		}
	}
}

func (s *search) rowsHold(j int, x []float64) bool {
	for _, i := range s.m.touching[j] {
		sum, v := 0.0, s.m.n+i
		for _, e := range s.m.rows[i] {
			sum += e.Value * x[e.Column]
		}
		if sum < s.m.low[v]-tight || sum > s.m.high[v]+tight {
			return false
		}
	}
	return true
}

// tryFixed tries the point in which each whole column has the part's lower bound, with
// the other columns as the relaxation then sets them.
func (s *search) tryFixed(nd *node) {
	high := slices.Clone(nd.high)
	low := slices.Clone(nd.low)
	for j := range low {
		if s.m.whole[j] {
			high[j] = low[j]
			continue
		}
		low[j] = s.m.low[j]
	}
	g := s.dict
	g.bound(low, high)
	if end, _ := g.dual(math.Inf(1), maxSteps); end != optimal {
		return
	}
	x := slices.Clone(g.x[:s.m.n])
	for j := range x {
		if s.m.whole[j] {
			x[j] = low[j]
		}
	}
	s.offer(x)
}
