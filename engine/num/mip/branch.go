package mip

import (
	"math"
	"slices"
)

// history is what steps of one column have cost so far, per unit moved, down and up.
type history struct {
	sum   [2]float64
	times [2]int
}

const (
	reliable   = 1  // steps after which a column's history is believed
	lookAhead  = 12 // candidates looked ahead at, at most
	lookSteps  = 20 // dual steps of one look
	whollyFrom = 1e-6
)

func (s *search) fractional() bool {
	for j := range s.m.n {
		if s.m.whole[j] && off(s.dict.x[j]) > whollyFrom {
			return true
		}
	}
	return false
}

func (s *search) learn(b branch, value float64) {
	if b.column < 0 || b.part <= 0 {
		return
	}
	side := 0
	if b.up {
		side = 1
	}
	h := &s.history[b.column]
	h.sum[side] += max(value-b.from, 0) / b.part
	h.times[side]++
}

// candidate is a fractional column with what branching on it should cost.
type candidate struct {
	column   int
	down, up float64 // parts the column has to move
	gain     [2]float64
	score    float64
}

func (c *candidate) rate() {
	const least = 1e-6
	c.score = max(c.gain[0], least) * max(c.gain[1], least)
}

// candidates lists the fractional columns, the most promising first.
func (s *search) candidates() []candidate {
	mean := s.meanHistory()
	var list []candidate
	for j := range s.m.n {
		x := s.dict.x[j]
		if !s.m.whole[j] || off(x) <= whollyFrom {
			continue
		}
		c := candidate{column: j, down: x - math.Floor(x), up: math.Ceil(x) - x}
		for side, part := range [2]float64{c.down, c.up} {
			rate := mean[side]
			if h := s.history[j]; h.times[side] > 0 {
				rate = h.sum[side] / float64(h.times[side])
			}
			c.gain[side] = max(rate*part, s.firstStep(j, side))
		}
		c.rate()
		list = append(list, c)
	}
	slices.SortStableFunc(list, func(a, b candidate) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return a.column - b.column
	})
	return list
}

// firstStep is the cost of the first dual step after branching, read off the
// dictionary without taking it.
func (s *search) firstStep(j, side int) float64 {
	g := s.dict
	part := g.x[j] - math.Floor(g.x[j])
	sign := -1.0
	if side == 1 {
		part, sign = 1-part, 1
	}
	g.collect(g.row(g.at[j]), sign)
	if len(g.steps) == 0 {
		return math.Abs(g.value())
	}
	return g.steps[0].ratio * part
}

func (s *search) meanHistory() [2]float64 {
	var mean [2]float64
	for side := range mean {
		sum, times := 0.0, 0
		for _, h := range s.history {
			if h.times[side] > 0 {
				sum += h.sum[side] / float64(h.times[side])
				times++
			}
		}
		if times > 0 {
			mean[side] = sum / float64(times)
		}
	}
	return mean
}

// divide chooses a column, makes both children, and gives the one to go on with.
func (s *search) divide(nd *node) *node {
	from := s.dict.value()
	c, verdict := s.choose(nd)
	switch verdict {
	case again:
		return nd
	case done:
		return nil
	}
	down, up := s.children(nd, c.column, math.Floor(s.dict.x[c.column]))
	down.branch = branch{c.column, false, c.down, from}
	up.branch = branch{c.column, true, c.up, from}
	first, second := down, up
	if c.gain[1] < c.gain[0] {
		first, second = up, down
	}
	s.push(second)
	return first
}

type verdict int

const (
	split verdict = iota
	again         // bounds became tighter: look at the node once more
	done
)

// choose takes the candidate whose two sides promise to raise the bound most. Columns
// without a record are tried: both sides are solved for some steps.
func (s *search) choose(nd *node) (candidate, verdict) {
	list := s.candidates()
	best, since := -1, 0
	s.spare.copyFrom(s.dict)
	for k := range list {
		c := &list[k]
		h := s.history[c.column]
		if min(h.times[0], h.times[1]) < reliable && k < lookAhead && since < 6 {
			since++
			if v := s.look(nd, c); v != split {
				return *c, v
			}
		}
		if best < 0 || c.score > list[best].score {
			best, since = k, 0
		}
	}
	return list[best], split
}

// look solves both sides for some steps. A side that is proved empty narrows the node.
func (s *search) look(nd *node, c *candidate) verdict {
	g, j := s.dict, c.column
	from, floor := s.spare.value(), math.Floor(s.spare.x[j])
	shut := [2]bool{}
	for side, part := range [2]float64{c.down, c.up} {
		if side == 0 {
			g.high[j] = floor
		} else {
			g.low[j] = floor + 1
		}
		g.place()
		end, r := g.dual(s.limit(), lookSteps)
		gain := max(g.value()-from, 0)
		switch {
		case end == beyond && g.proved() >= s.limit(), end == empty && g.provedEmpty(r):
			shut[side] = true
		case end != empty:
			s.learn(branch{j, side == 1, part, from}, from+gain)
		}
		c.gain[side] = gain
		s.dict.copyFrom(s.spare)
	}
	c.rate()
	switch {
	case shut[0] && shut[1]:
		return done
	case shut[0]:
		nd.low[j] = floor + 1
		return again
	case shut[1]:
		nd.high[j] = floor
		return again
	}
	return split
}

// fixBounds narrows the bounds under which value was proved: a whole column outside
// the basis goes no further than its reduced cost lets the limit allow.
func (s *search) fixBounds(low, high []float64, value float64) {
	room := s.limit() - value
	if math.IsInf(room, 1) || room < 0 {
		return
	}
	g := s.dict
	for place, v := range g.out {
		d := math.Abs(g.d[place])
		if v >= s.m.n || !s.m.whole[v] || d <= 1e3*g.still || high[v] <= low[v] {
			continue
		}
		steps := math.Floor(room/d*(1+1e-9) + 1e-9)
		if g.d[place] < 0 {
			low[v] = max(low[v], high[v]-steps)
			continue
		}
		high[v] = min(high[v], low[v]+steps)
	}
}

// rootFix narrows the bounds of the whole problem.
func (s *search) rootFix() {
	n := s.m.n
	s.fixBounds(s.m.low[:n], s.m.high[:n], s.dict.proved())
	s.m.narrow(s.m.low, s.m.high)
	s.dict.bound(s.m.low, s.m.high)
	s.dict.dual(math.Inf(1), maxSteps)
}
