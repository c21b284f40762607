package mip

import (
	"math"
	"slices"
)

const (
	cutRounds   = 40
	worthwhile  = 0.2 // share of what the rounds gained so far that the next has to add
	cutsPerTurn = 24
)

// strengthen adds cuts to the model while they raise the bound of the first node.
func (s *search) strengthen() {
	g := s.dict
	first := g.value()
	last := first
	for range cutRounds {
		if s.stopped() || !s.fractional() {
			return
		}
		cuts := s.separate()
		if len(cuts) == 0 {
			return
		}
		for _, c := range cuts {
			s.m.addRow(c.entries, c.low, math.Inf(1))
			v := s.m.n + len(s.m.rows) - 1
			_, most := extremes(c.entries, s.m.low, s.m.high)
			s.m.high[v] = max(most, c.low)
			s.m.whole[v] = false
		}
		g.grow()
		end, _ := g.dual(math.Inf(1), maxSteps)
		if end != optimal {
			s.dropCuts(func(int) bool { return true })
			return
		}
		s.dropSlack()
		s.rootFix()
		now := g.value()
		if now-last <= worthwhile*(now-first) {
			return
		}
		last = now
	}
}

// separate gives the deepest cuts that do not say nearly the same.
func (s *search) separate() []cut {
	r := &rounder{m: s.m, x: s.dict.x, sums: make([]float64, s.m.n)}
	s.cutRows(r)
	s.cutDictionary(r)
	slices.SortStableFunc(r.found, func(a, b cut) int {
		switch {
		case a.depth > b.depth:
			return -1
		case a.depth < b.depth:
			return 1
		}
		return 0
	})
	return r.distinct()
}

// distinct takes the deepest cuts, but none whose direction is close to one taken.
func (r *rounder) distinct() []cut {
	var taken []cut
	var lengths []float64
	for _, c := range r.found {
		if len(taken) == cutsPerTurn {
			break
		}
		clear(r.sums)
		length := 0.0
		for _, e := range c.entries {
			r.sums[e.Column] = e.Value
			length += e.Value * e.Value
		}
		length = math.Sqrt(length)
		if !r.near(taken, lengths, length) {
			taken, lengths = append(taken, c), append(lengths, length)
		}
	}
	return taken
}

// near tells whether the direction in sums is close to that of a cut taken.
func (r *rounder) near(taken []cut, lengths []float64, length float64) bool {
	for k, t := range taken {
		product := 0.0
		for _, e := range t.entries {
			product += e.Value * r.sums[e.Column]
		}
		if product > 0.9*length*lengths[k] {
			return true
		}
	}
	return false
}

// cutRows rounds the rows as they were asked, divided by each of their coefficients.
func (s *search) cutRows(r *rounder) {
	for i, row := range s.m.rows {
		for _, sign := range [...]float64{1, -1} {
			r.begin()
			for _, e := range row {
				r.take(e.Column, sign*e.Value)
			}
			r.take(s.m.n+i, -sign)
			s.tryAll(r)
			r.end()
		}
	}
}

// tryAll tries every coefficient of a whole variable off its bounds as the divisor.
func (s *search) tryAll(r *rounder) {
	var tried []float64
	for _, t := range r.terms {
		step := math.Abs(t.value)
		if t.v >= s.m.n || !s.m.whole[t.v] || t.at < 1e-9 || slices.Contains(tried, step) || len(tried) > 8 {
			continue
		}
		tried = append(tried, step)
		r.try(step)
	}
}

// cutDictionary rounds the rows of the dictionary whose variable should be whole.
func (s *search) cutDictionary(r *rounder) {
	g := s.dict
	for i, v := range g.basic {
		if !s.m.whole[v] || off(g.x[v]) < 0.01 {
			continue
		}
		r.begin()
		s.combine(r, i)
		for _, times := range [...]float64{1, 2, 3} {
			r.try(1 / times)
		}
		r.end()
	}
}

// combine takes row i of the dictionary as an identity. Only its weights on the rows
// are read off the dictionary; the coefficients of the columns are summed afresh, so
// that the identity holds whatever the weights.
func (s *search) combine(r *rounder, i int) {
	g, n := s.dict, s.m.n
	clear(r.sums)
	set := func(v int, weight float64) {
		if v < n || weight == 0 {
			return
		}
		r.take(v, weight)
		for _, e := range s.m.rows[v-n] {
			r.sums[e.Column] -= weight * e.Value
		}
	}
	set(g.basic[i], 1)
	for j, a := range g.row(i) {
		set(g.out[j], -a)
	}
	for j, value := range r.sums {
		r.take(j, value)
	}
}

// off is the distance from the nearest whole number.
func off(x float64) float64 { return math.Abs(x - math.Round(x)) }

// dropSlack takes out cuts that have become loose.
func (s *search) dropSlack() {
	g := s.dict
	s.dropCuts(func(i int) bool {
		v := s.m.n + i
		return g.at[v] >= 0 && g.x[v] > g.low[v]+1e-6
	})
}

// dropCuts removes cuts for which loose holds from model and dictionary.
func (s *search) dropCuts(loose func(row int) bool) {
	m, n := s.m, s.m.n
	moved := make([]int, n+len(m.rows))
	for v := range moved {
		moved[v] = v
	}
	kept := m.asked
	for i := m.asked; i < len(m.rows); i++ {
		if loose(i) {
			moved[n+i] = -1
			continue
		}
		from, to := n+i, n+kept
		moved[from] = to
		m.rows[kept], m.low[to], m.high[to], m.whole[to] = m.rows[i], m.low[from], m.high[from], m.whole[from]
		kept++
	}
	if kept == len(m.rows) {
		return
	}
	m.rows = m.rows[:kept]
	m.low, m.high, m.whole = m.low[:n+kept], m.high[:n+kept], m.whole[:n+kept]
	s.dict.rename(moved)
}
