package mip

import "math"

// term is one variable of an identity Σ value·x = 0 that holds at every point.
type term struct {
	v     int
	value float64
	upper bool    // counted down from its upper bound instead of up from its lower
	at    float64 // how far from that bound the present point is
}

// rounder makes cuts by mixed-integer rounding: with Σ a·t = b, all t >= 0, some
// whole, and f the fraction of b,
//
//	Σ whole (⌊a⌋ + min(1, frac(a)/f))·t + Σ other (max(a, 0)/f)·t >= ⌈b⌉.
type rounder struct {
	m     *model
	x     []float64 // the point to cut off, per variable
	terms []term
	right float64
	sums  []float64 // scratch per column
	best  cut       // the deepest of the present identity
	found []cut
}

// cut is a row "at least" over columns, with how far the point is beyond it.
type cut struct {
	entries []Entry
	low     float64
	depth   float64
}

// leastDepth is how far, as a distance, a cut must go beyond the point to be worth it.
const leastDepth = 1e-4

// begin starts on a new identity.
func (r *rounder) begin() {
	r.terms, r.right = r.terms[:0], 0
	r.best = cut{depth: leastDepth}
}

// end keeps the deepest cut of the identity.
func (r *rounder) end() {
	if r.best.entries != nil {
		r.found = append(r.found, r.best)
	}
}

// take adds a variable, counted from the bound that is nearer.
func (r *rounder) take(v int, value float64) {
	if value == 0 {
		return
	}
	low, high := r.m.low[v], r.m.high[v]
	if math.Abs(value) < 1e-9 {
		// Rounding's leftovers: the identity becomes "at least" what is left without.
		r.right -= max(value*low, value*high)
		return
	}
	t := term{v: v, value: value, at: max(r.x[v]-low, 0)}
	bound := low
	if high-r.x[v] < r.x[v]-low {
		t.upper, t.at, t.value = true, max(high-r.x[v], 0), -value
		bound = high
	}
	r.right -= value * bound
	r.terms = append(r.terms, t)
}

// try rounds the identity divided by step and keeps the cut when it is the deepest.
func (r *rounder) try(step float64) {
	b := r.right / step
	f := b - math.Floor(b)
	if f < 0.005 || f > 0.995 || math.Abs(b) > 1e7 {
		return
	}
	lack := math.Ceil(b)
	for i := range r.terms {
		lack -= r.factor(&r.terms[i], step, f) * r.terms[i].at
	}
	if lack > leastDepth {
		r.keep(step, f, math.Ceil(b))
	}
}

func (r *rounder) factor(t *term, step, f float64) float64 {
	a := t.value / step
	if !r.m.whole[t.v] {
		return max(a, 0) / f
	}
	down := math.Floor(a)
	part := a - down
	// A value a hair below a whole number would be rounded to it from the wrong side.
	if part > 1-1e-10 {
		return down + 1
	}
	return down + min(1, part/f)
}

// keep writes the cut over columns.
func (r *rounder) keep(step, f, low float64) {
	n := r.m.n
	clear(r.sums)
	for i := range r.terms {
		t := &r.terms[i]
		g := r.factor(t, step, f)
		if g == 0 {
			continue
		}
		if t.upper {
			low -= g * r.m.high[t.v]
			g = -g
		} else {
			low += g * r.m.low[t.v]
		}
		if t.v < n {
			r.sums[t.v] += g
			continue
		}
		for _, e := range r.m.rows[t.v-n] {
			r.sums[e.Column] += g * e.Value
		}
	}
	r.finish(low)
}

// finish measures the cut that stands in sums, drops what is too small to count, in
// favour of all points, and writes it down when it is deeper than the best.
func (r *rounder) finish(low float64) {
	biggest := 0.0
	for _, g := range r.sums {
		biggest = max(biggest, math.Abs(g))
	}
	if biggest == 0 || math.IsNaN(biggest) || biggest > 1e9 {
		return
	}
	size, length, reach, count := math.Abs(low), 0.0, 0.0, 0
	for j, g := range r.sums {
		if g == 0 {
			continue
		}
		if math.Abs(g) < 1e-7*biggest {
			low -= max(g*r.m.low[j], g*r.m.high[j])
			r.sums[j] = 0
			continue
		}
		size += math.Abs(g) * max(math.Abs(r.m.low[j]), math.Abs(r.m.high[j]))
		length += g * g
		reach += g * r.x[j]
		count++
	}
	depth := (low - reach) / math.Sqrt(length)
	if !(depth > r.best.depth) || !finite(low) {
		return
	}
	r.best = cut{make([]Entry, 0, count), (low - 1e-11*size) / biggest, depth}
	for j, g := range r.sums {
		if g != 0 {
			r.best.entries = append(r.best.entries, Entry{j, g / biggest})
		}
	}
}
