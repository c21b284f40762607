package mip

import (
	"math"
	"slices"
)

// outcome is how a dual run ended.
type outcome int

const (
	optimal outcome = iota // all bounds hold
	beyond                 // the cost has passed the limit given
	empty                  // row `stuck` cannot be brought within its bounds
	tired                  // too many steps
)

// broken is how far a bound may be broken, relative to its size.
const broken = 1e-9

// dual walks to the optimum under the bounds in force, or until the cost is above
// limit. The second value is the row of the dictionary that shows emptiness.
func (g *dictionary) dual(limit float64, most int) (outcome, int) {
	for k := range most {
		if k%32 == 31 && g.ctx.Err() != nil {
			return tired, -1
		}
		if g.pivots > 150 {
			g.renew()
		}
		r := g.worst()
		if r < 0 {
			return optimal, -1
		}
		q, found := g.entering(r)
		if !found {
			return empty, r
		}
		g.step(r, q)
		if g.value() > limit {
			return beyond, -1
		}
	}
	return tired, -1
}

// worst picks the row whose broken bound is farthest away, measured along its edge
// (steepest edge; the dense rows give its length exactly).
func (g *dictionary) worst() int {
	best, r := 0.0, -1
	for i, v := range g.basic {
		gap := max(g.low[v]-g.x[v], g.x[v]-g.high[v])
		if gap <= broken*(1+math.Abs(g.x[v])) {
			continue
		}
		length := 1.0
		for _, a := range g.row(i) {
			length += a * a
		}
		if score := gap * gap / length; score > best {
			best, r = score, i
		}
	}
	return r
}

// step is one variable that could move the row: at which ratio of cost to effect.
type step struct {
	place       int
	ratio, size float64
}

// entering picks who takes the place of row r. Variables whose whole range does not
// mend the row are sent to their other bound on the way. False: nothing mends it.
func (g *dictionary) entering(r int) (int, bool) {
	v := g.basic[r]
	gap, sign := g.low[v]-g.x[v], 1.0
	if gap <= 0 {
		gap, sign = g.x[v]-g.high[v], -1
	}
	g.collect(g.row(r), sign)
	flipped := 0
	for k, s := range g.steps {
		u := g.out[s.place]
		gap -= s.size * (g.high[u] - g.low[u])
		if gap < 0 || gap <= broken*(1+math.Abs(g.x[v])) && k == len(g.steps)-1 {
			q := g.sturdiest(k)
			g.flip(g.steps[:flipped])
			return q, true
		}
		flipped = k + 1
	}
	return -1, false
}

// collect lists who can mend the row, cheapest first.
func (g *dictionary) collect(row []float64, sign float64) {
	g.steps = g.steps[:0]
	for j, a := range row {
		if a == 0 {
			continue
		}
		u := g.out[j]
		if g.high[u] <= g.low[u] {
			continue
		}
		a *= sign
		if g.up[u] {
			a = -a
		}
		if a > 1e-9 {
			g.steps = append(g.steps, step{j, math.Abs(g.d[j]) / a, a})
		}
	}
	slices.SortFunc(g.steps, func(a, b step) int {
		switch {
		case a.ratio < b.ratio:
			return -1
		case a.ratio > b.ratio:
			return 1
		}
		return a.place - b.place
	})
}

// sturdiest takes, among those after k that are hardly dearer, the one with the
// largest coefficient.
func (g *dictionary) sturdiest(k int) int {
	best := g.steps[k]
	for _, s := range g.steps[k+1:] {
		if s.ratio > g.steps[k].ratio+g.still {
			break
		}
		if s.size > best.size {
			best = s
		}
	}
	return best.place
}

func (g *dictionary) flip(steps []step) {
	n := g.m.n
	for _, s := range steps {
		u := g.out[s.place]
		g.up[u] = !g.up[u]
		to := g.low[u]
		if g.up[u] {
			to = g.high[u]
		}
		change := to - g.x[u]
		g.x[u] = to
		for i, v := range g.basic {
			g.x[v] += g.t[i*n+s.place] * change
		}
	}
}

// step moves the variable at place q until row r stands at the bound it broke, and
// swaps the two.
func (g *dictionary) step(r, q int) {
	n := g.m.n
	v, u := g.basic[r], g.out[q]
	g.up[v] = g.x[v] > g.high[v]
	to := g.low[v]
	if g.up[v] {
		to = g.high[v]
	}
	change := (to - g.x[v]) / g.t[r*n+q]
	for i, b := range g.basic {
		g.x[b] += g.t[i*n+q] * change
	}
	g.x[u] += change
	g.x[v] = to
	g.swap(r, q)
}
