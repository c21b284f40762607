package day

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"

	"dropleg/engine/air"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// entry is the tables of a set: over the band of the compressors, and down to nothing
// for the few sets that the store falls out of the band with.
type entry struct{ band, deep leaf }

type leaf struct {
	once  sync.Once
	table *Table
	err   error
}

// worker belongs to one goroutine.
type worker struct {
	*shop
	solver *model.Solver
}

func (s *shop) worker() *worker { return &worker{s, s.m.NewSolver()} }

func (w *worker) day(ctx context.Context, ask Ask, day int) (*Course, []Turn, error) {
	rng := rand.New(rand.NewPCG(ask.Seed, uint64(day)))
	turns := w.rota.Turns(rng, float64(ask.Time))
	sets := make([]Switch, len(turns))
	for i, t := range turns {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		set, err := w.set(ctx, t)
		if err != nil {
			return nil, nil, err
		}
		sets[i] = set
	}
	// The shop opens with the receiver full.
	c, err := Run(ctx, w.plant, sets, Options{Start: w.high, End: float64(ask.Time), Tools: len(w.tools), Trace: ask.Trace && day == 0})
	return c, turns, err
}

// running lists who runs where after a turn, with the tools' numbers.
func (s *shop) running(t Turn) (uses []job.InUse, who []int) {
	for a, places := range t.Where {
		for k, place := range places {
			n := s.users[a][k]
			uses = append(uses, job.InUse{Tool: s.tools[n], Outlet: s.places[place]})
			who = append(who, n)
		}
	}
	return uses, who
}

// beneath is how far under cut-in the first table of a set reaches, as a share of cut-in's gauge pressure.
const beneath = 0.1

// set is a turn with what it takes.
func (w *worker) set(ctx context.Context, t Turn) (Switch, error) {
	uses, who := w.running(t)
	out := Switch{At: t.At, Who: who, Least: make([]float64, len(uses))}
	for i, use := range uses {
		if pair, ok := w.m.PairOf(use); ok {
			out.Least[i] = float64(pair.Least) + w.atm
		}
	}
	key := fmt.Sprint(uses)
	w.mu.Lock()
	e, ok := w.tables[key]
	if !ok {
		e = &entry{}
		w.tables[key] = e
	}
	w.mu.Unlock()
	e.band.once.Do(func() { e.band.table, e.band.err = w.tabulate(ctx, uses, w.low-beneath*(w.low-w.atm)) })
	out.Table = e.band.table
	out.Deep = func() (*Table, error) {
		e.deep.once.Do(func() { e.deep.table, e.deep.err = w.tabulate(ctx, uses, w.atm*1.02) })
		return e.deep.table, e.deep.err
	}
	return out, e.band.err
}

// tabulate asks the network what a set takes over the receiver's pressures.
func (w *worker) tabulate(ctx context.Context, uses []job.InUse, low float64) (*Table, error) {
	pairs := make([]int, len(uses))
	for i, use := range uses {
		p, _ := w.m.PairOf(use)
		pairs[i] = p.Index
	}
	var failed error
	table := Tabulate(func(p float64) (float64, []float64, bool) {
		r, err := w.solver.Solve(ctx, w.held(uses, p))
		if err != nil {
			failed = err
		}
		if err != nil || !r.Solved {
			return 0, nil, false
		}
		out := w.leak * p / w.low
		for _, s := range r.Sources {
			out += float64(air.Mass(s.Out - s.In))
		}
		tools := make([]float64, len(pairs))
		for i, k := range pairs {
			tools[i] = float64(r.Tools[k].Pressure) + w.atm
		}
		return out, tools, true
	}, low, w.high)
	if failed == nil && table == nil {
		failed = fmt.Errorf("no receiver pressure carries the set %v", uses)
	}
	return table, failed
}
