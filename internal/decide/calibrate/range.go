package calibrate

import (
	"context"
	"errors"
	"math"
	"slices"
)

// rise is what the objective gains, over its least, at the ends of a range that holds 19
// times in 20: half the square of so many deviations of a normal.
const rise = oddsOfNormal * oddsOfNormal / 2

// Bounds of the search for an end.
const (
	mostTries  = 6
	mostBeside = 2
	nearly     = 0.05 // of the rise
	widening   = 1.6
)

// end is the x of the i-th free figure at one end of its range, the others at their likeliest
// beside it. Where a figure shows less and less, as a filter that hardly takes anything does,
// the end lies farther out than the curvature at the likeliest says; and of two filters in
// line each may take what the other does not.
func (b *bench) end(ctx context.Context, f *fit, i int, way float64) (float64, error) {
	k, sd := f.free[i], math.Sqrt(f.after[i][i])
	least := f.objective(f.x, f.sights)
	inner, outer := 0.0, math.Inf(1) // in deviations
	t := oddsOfNormal
	for range mostTries {
		up, err := b.beside(ctx, f, i, way*t*sd)
		if err != nil {
			return 0, err
		}
		up -= least
		switch {
		case math.Abs(up-rise) < nearly*rise:
			return f.x[k] + way*t*sd, nil
		case up < rise:
			inner = t
		default:
			outer = t
		}
		guess := t * math.Sqrt(rise/max(up, rise/20)) // a parabola from the likeliest
		if math.IsInf(outer, 1) {
			t = min(guess, t*widening)
		} else if t = guess; t <= inner || t >= outer {
			t = (inner + outer) / 2
		}
	}
	return f.x[k] + way*t*sd, nil
}

// beside is the objective with the i-th free figure moved: the others along the readings' tie,
// then by steps of their own.
func (b *bench) beside(ctx context.Context, f *fit, i int, by float64) (float64, error) {
	g := &fit{x: slices.Clone(f.x), cov: f.cov}
	for n, k := range f.free {
		g.x[k] += by * f.after[i][n] / f.after[i][i]
		if n != i {
			g.free = append(g.free, k)
		}
	}
	var err error
	if g.sights, err = b.look(ctx, g.x); err != nil {
		return 0, err
	}
	if !alike(g.sights, f.sights) { // the network has no answer there, or one that it had not
		return math.Inf(1), nil
	}
	for range mostBeside {
		far, err := b.stride(ctx, g)
		if err != nil && !errors.Is(err, errSingular) {
			return 0, err
		}
		if err != nil || far < 0.1 {
			break
		}
	}
	fixed := g.x[f.free[i]]
	return g.objective(g.x, g.sights) + fixed*fixed/2, ctx.Err()
}
