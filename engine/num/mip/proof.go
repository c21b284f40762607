package mip

import "math"

// The dictionary carries the rounding of many steps. What ends a branch is therefore
// proved afresh: with any weights w on the rows,
// cost·x = Σ w·row + (cost - Σ w·coefficients)·x, and each term is at least its least
// value within the bounds. Weights that are a little off give a bound that is a
// little lower, never a wrong one.

// proved gives a cost that no point within the bounds in force comes below.
func (g *dictionary) proved() float64 {
	weights := g.noWeights()
	for j, v := range g.out {
		if v >= g.m.n {
			weights[v-g.m.n] = g.d[j]
		}
	}
	return g.floor(weights, g.m.cost)
}

// provedEmpty tells whether row r of the dictionary shows that no point is within
// the bounds in force: the row says 0 = a sum that is never 0.
func (g *dictionary) provedEmpty(r int) bool {
	weights := g.noWeights()
	sign := 1.0
	if v := g.basic[r]; g.x[v] > g.high[v] {
		sign = -1
	}
	// x[basic] must rise (sign 1) though all others do their best: others - basic < 0
	// everywhere. So basic - others is above 0 everywhere.
	set := func(v int, a float64) {
		if v >= g.m.n {
			weights[v-g.m.n] = a
		}
	}
	set(g.basic[r], sign)
	for j, a := range g.row(r) {
		set(g.out[j], -sign*a)
	}
	return g.floor(weights, nil) > 0
}

func (g *dictionary) noWeights() []float64 { return zeros(&g.weights, len(g.m.rows)) }

// zeros gives n zeros in the place of scratch.
func zeros(scratch *[]float64, n int) []float64 {
	if cap(*scratch) < n {
		*scratch = make([]float64, n)
	}
	clear((*scratch)[:n])
	return (*scratch)[:n]
}

// floor sums the least values, less what rounding may have added. A nil cost is zero.
func (g *dictionary) floor(weights, cost []float64) float64 {
	n := g.m.n
	rest, size := zeros(&g.rest, n), zeros(&g.size, n)
	for j, c := range cost {
		rest[j], size[j] = c, math.Abs(c)
	}
	sum, total := 0.0, 0.0
	add := func(w, low, high float64) {
		term := min(w*low, w*high)
		sum += term
		total += math.Abs(term)
	}
	for i, w := range weights {
		if w == 0 {
			continue
		}
		add(w, g.low[n+i], g.high[n+i])
		for _, e := range g.m.rows[i] {
			rest[e.Column] -= w * e.Value
			size[e.Column] += math.Abs(w * e.Value)
		}
	}
	for j, w := range rest {
		add(w, g.low[j], g.high[j])
		total += size[j] * max(math.Abs(g.low[j]), math.Abs(g.high[j]))
	}
	const rounding = 1e-15 // a few units in the last place of each term, times their number
	return sum - rounding*total
}
