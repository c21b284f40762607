package calibrate

import (
	"context"
	"errors"
	"math"
	"slices"
)

// fit is the state of the search.
type fit struct {
	x      []float64
	free   []int       // figures that are adjusted
	sights []sight     // at x
	cov    [][]float64 // of the readings: noise, what is not known, figures that are not adjusted
	after  [][]float64 // posterior covariance of the free figures, in x
}

// Bounds of the search.
const (
	mostRounds = 8     // with a covariance of the readings of its own each
	mostSteps  = 20    // in one round
	longest    = 1.0   // a step in x
	settled    = 0.005 // a step in x that ends it: far below what any reading tells
	mostHalves = 6     // of a step that leads up
)

// settle finds the likeliest x of the free figures; the others stay where they are. The
// covariance of the readings, which moves a little with x, is held for a round of steps.
func (b *bench) settle(ctx context.Context, f *fit) error {
	var err error
	if f.sights, err = b.look(ctx, f.x); err != nil {
		return err
	}
	for range mostRounds {
		f.cov = f.covariance()
		moved := 0.0
		for range mostSteps {
			far, err := b.stride(ctx, f)
			if err != nil {
				return err
			}
			moved = max(moved, far)
			if far < settled {
				break
			}
		}
		if moved < settled {
			break
		}
	}
	return nil
}

// stride makes one step, halved until it leads down, and says how far it led: 0 where none
// does, as at the edge where a regulator begins to hold.
func (b *bench) stride(ctx context.Context, f *fit) (far float64, err error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	dx, ok := f.step()
	if !ok {
		return 0, errSingular
	}
	most := maxAbs(dx)
	if most < settled {
		return most, nil
	}
	far = min(most, longest)
	shrink := far / most
	before := f.objective(f.x, f.sights)
	for range mostHalves {
		x := slices.Clone(f.x)
		for i, k := range f.free {
			x[k] += dx[i] * shrink
		}
		sights, err := b.look(ctx, x)
		if err != nil {
			return 0, err
		}
		if f.objective(x, sights) < before {
			f.x, f.sights = x, sights
			return far, nil
		}
		shrink, far = shrink/2, far/2
	}
	return 0, nil
}

func maxAbs(v []float64) float64 {
	most := 0.0
	for _, x := range v {
		most = max(most, math.Abs(x))
	}
	return most
}

// errSingular: readings without any noise, which Doubts do not allow.
var errSingular = errors.New("the readings could not be weighed against each other")

// step is that of Gauss and Newton from x, and leaves the posterior covariance there.
func (f *fit) step() (dx []float64, ok bool) {
	low := factor(f.cov)
	if low == nil {
		return nil, false
	}
	r := forward(low, f.lacks(f.sights))
	var columns [][]float64
	for _, k := range f.free {
		columns = append(columns, forward(low, f.slope(k)))
	}
	n := len(f.free)
	h, g := make([][]float64, n), make([]float64, n)
	for i := range n {
		h[i] = make([]float64, n)
		for k := range n {
			h[i][k] = dot(columns[i], columns[k])
		}
		h[i][i]++ // the prior
		g[i] = dot(columns[i], r) - f.x[f.free[i]]
	}
	lh := factor(h)
	if lh == nil {
		return nil, false
	}
	f.after = make([][]float64, n)
	for i := range n {
		unit := make([]float64, n)
		unit[i] = 1
		f.after[i] = backward(lh, forward(lh, unit))
	}
	return backward(lh, forward(lh, g)), true
}

// objective is half the squared deviations of readings and figures, with the covariance of
// the step at hand.
func (f *fit) objective(x []float64, sights []sight) float64 {
	sum := 0.0
	for _, k := range f.free {
		sum += x[k] * x[k] / 2
	}
	return sum + f.chi(sights)/2
}

// chi is the squared deviations of the readings.
func (f *fit) chi(sights []sight) float64 {
	if !alike(sights, f.sights) {
		return math.Inf(1)
	}
	low := factor(f.cov)
	if low == nil {
		return math.Inf(1)
	}
	r := forward(low, f.lacks(sights))
	return dot(r, r)
}

// common is chi of other sights over the readings that are known in both.
func (f *fit) common(others []sight) float64 {
	g := &fit{x: f.x, free: f.free, sights: slices.Clone(f.sights)}
	others = slices.Clone(others)
	for i := range others {
		both := others[i].known && g.sights[i].known
		others[i].known, g.sights[i].known = both, both
	}
	g.cov = g.covariance()
	return g.chi(others)
}

// alike says whether the same readings are known in both.
func alike(a, b []sight) bool {
	return slices.EqualFunc(a, b, func(x, y sight) bool { return x.known == y.known })
}

// lacks are the readings less what is computed, of those that are known.
func (f *fit) lacks(sights []sight) []float64 {
	var out []float64
	for i := range sights {
		if sights[i].known {
			out = append(out, sights[i].shown-sights[i].mean)
		}
	}
	return out
}

// slope is that of the readings by one figure.
func (f *fit) slope(k int) []float64 {
	var out []float64
	for i := range f.sights {
		if f.sights[i].known {
			out = append(out, f.sights[i].by[k])
		}
	}
	return out
}

// covariance is that of the readings: what is read, what is not known, and figures that are
// not adjusted, by their priors.
func (f *fit) covariance() [][]float64 {
	var known []*sight
	for i := range f.sights {
		if f.sights[i].known {
			known = append(known, &f.sights[i])
		}
	}
	c := make([][]float64, len(known))
	for i, a := range known {
		c[i] = make([]float64, len(known))
		for k, o := range known[:i+1] {
			c[i][k] = dot(a.nu, o.nu)
			for n := range a.by {
				if !slices.Contains(f.free, n) {
					c[i][k] += a.by[n] * o.by[n]
				}
			}
			c[k][i] = c[i][k]
		}
		c[i][i] += a.noise
	}
	return c
}
