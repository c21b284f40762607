package day

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"

	"dropleg/engine/air"
	"dropleg/internal/shop/job"
)

// apart is what the store loses by each tool while it runs alone, row by row of the
// same pressures. Where a shop has more sets than can be solved one by one, a set is
// taken to take what its tools take apart, less what they keep from each other by
// drawing the line's pressure down.
type apart struct {
	pressure []float64 // Pa abs, rising
	rest     []float64 // kg/s with nobody at work
	tool     map[job.InUse][]float64
	// less is how much less all take together, per square of what they take apart: s/kg.
	less float64
}

// Rows of the band of the compressors, and beneath it.
const (
	rowsBand    = 13
	rowsBeneath = 8
)

// newApart solves every tool at every of its places alone.
func (s *shop) newApart(ctx context.Context) (*apart, error) {
	a := &apart{tool: map[job.InUse][]float64{}}
	bottom, deepest := s.bottom(), s.deepest()
	for i := range rowsBeneath {
		a.pressure = append(a.pressure, deepest+(bottom-deepest)*float64(i)/rowsBeneath)
	}
	for i := range rowsBand {
		a.pressure = append(a.pressure, bottom+(s.high-bottom)*float64(i)/(rowsBand-1))
	}
	var err error
	if a.rest, err = s.drawn(ctx, nil, a.pressure); err != nil {
		return nil, err
	}
	var uses []job.InUse
	for i, actor := range s.rota.Actors {
		for k, places := range actor.Tools {
			for _, place := range places {
				uses = append(uses, job.InUse{Tool: s.tools[s.users[i][k]], Outlet: s.places[place]})
			}
		}
	}
	var mu sync.Mutex
	err = each(len(uses), func(i int) error {
		out, err := s.drawn(ctx, uses[i:i+1], a.pressure)
		for k := range out {
			out[k] -= a.rest[k]
		}
		mu.Lock()
		defer mu.Unlock()
		a.tool[uses[i]] = out
		return err
	})
	return a, err
}

// drawn is what leaves the store while some tools run, by its pressure; where the
// network has no answer, as at the pressure above.
func (s *shop) drawn(ctx context.Context, uses []job.InUse, pressure []float64) ([]float64, error) {
	solver := s.m.NewSolver()
	out := make([]float64, len(pressure))
	for i, p := range slices.Backward(pressure) {
		r, err := solver.Solve(ctx, s.held(uses, p))
		switch {
		case err != nil:
			return out, err
		case r.Solved:
			out[i] = float64(air.Mass(r.Drawn()))
		case i+1 < len(pressure):
			out[i] = out[i+1]
		default:
			return out, fmt.Errorf("the net has no answer for the set %v", uses)
		}
	}
	return out, nil
}

// together is what tools take at once that apart take a sum, kg/s. Far beyond what was
// seen the law would turn round: a tenth is always left.
func (a *apart) together(sum float64) float64 { return sum * (1 - min(a.less*sum, 0.9)) }

// table is what a set takes by what its tools take apart.
func (a *apart) table(s *shop, uses []job.InUse) *Table {
	t := &Table{Pressure: a.pressure, Out: slices.Clone(a.rest)}
	for i, p := range a.pressure {
		sum := 0.0
		for _, use := range uses {
			sum += a.tool[use][i]
		}
		t.Out[i] += a.together(sum) + s.leaks(p)
	}
	return t
}

// dayApart is a day by what the tools take apart, looked at in moments.
func (s *shop) dayApart(ctx context.Context, rng *rand.Rand, d *done, o Options) error {
	sets := make([]Switch, len(d.turns))
	for i, t := range d.turns {
		uses, _ := s.running(t)
		sets[i] = Switch{At: t.At, Table: s.apart.table(s, uses)}
	}
	trace := o.Trace
	o.Trace = true
	var err error
	if d.course, err = Run(ctx, s.plant, sets, o); err != nil {
		return err
	}
	if err := s.look(ctx, rng, d, o.End); err != nil {
		return err
	}
	if !trace {
		d.course.Trace = nil
	}
	return nil
}

// Beyond mostSets different sets in a day they are not solved one by one.
const mostSets = 400

// choose looks at a day's sets, and where they are many prepares for taking them apart.
func (s *shop) choose(ctx context.Context, ask Ask) error {
	sets := map[string]bool{}
	for _, t := range s.rota.Turns(rand.New(rand.NewPCG(ask.Seed, 0)), float64(ask.Time)) {
		uses, _ := s.running(t)
		sets[job.KeyOf(uses)] = true
	}
	if len(sets) <= mostSets {
		return nil
	}
	return s.takeApart(ctx, ask)
}

// trials are days that are never told: they only show what tools keep from each other.
const trials = 2

func (s *shop) takeApart(ctx context.Context, ask Ask) error {
	var err error
	if s.apart, err = s.newApart(ctx); err != nil {
		return err
	}
	const untold = 1 << 32 // no day that is told has such a number
	days, err := s.through(ctx, Ask{Seed: ask.Seed, Time: ask.Time}, untold, trials)
	if err != nil {
		return err
	}
	s.apart.fit(s, seen(days))
	return nil
}
