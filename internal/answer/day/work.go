package day

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"sync"

	"dropleg/engine/air"
	"dropleg/internal/shop/job"
)

// entry is the tables of a set: over the band of the compressors, and down to nothing
// for the few sets that the store falls out of the band with.
type entry struct {
	uses       []job.InUse
	band, deep leaf
}

type leaf struct {
	once  sync.Once
	table *Table
	err   error
}

// done is one day.
type done struct {
	course *Course
	turns  []Turn
	// short is how long each tool went short beside whom.
	short map[spoil]float64
	laws  []lawAt // what was seen at moments looked at
}

// spoil is a tool short of pressure in a set.
type spoil struct {
	tool int
	set  string
}

func (s *shop) day(ctx context.Context, ask Ask, day int) (done, error) {
	rng := rand.New(rand.NewPCG(ask.Seed, uint64(day)))
	out := done{turns: s.rota.Turns(rng, float64(ask.Time)), short: map[spoil]float64{}}
	// The shop opens with the receiver full.
	o := Options{Start: s.high, End: float64(ask.Time), Tools: len(s.tools), Trace: ask.Trace && day == 0}
	if s.plant.Vessels != nil {
		return out, s.dayBetween(ctx, &out, o)
	}
	if s.apart != nil {
		return out, s.dayApart(ctx, rng, &out, o)
	}
	sets, keys := make([]Switch, len(out.turns)), make([]string, len(out.turns))
	if cores := runtime.GOMAXPROCS(0); ask.Days < cores {
		s.prepare(ctx, out.turns, cores)
	}
	for i, t := range out.turns {
		if err := ctx.Err(); err != nil {
			return out, err
		}
		var err error
		if sets[i], keys[i], err = s.set(ctx, t); err != nil {
			return out, err
		}
	}
	o.Short = func(set, tool int, seconds float64) { out.short[spoil{tool, keys[set]}] += seconds }
	var err error
	out.course, err = Run(ctx, s.plant, sets, o)
	return out, err
}

// prepare tabulates the sets of a day on all cores; what goes wrong is told by who asks
// for the set next.
func (s *shop) prepare(ctx context.Context, turns []Turn, cores int) {
	var wg sync.WaitGroup
	for first := range cores {
		wg.Go(func() {
			for i := first; i < len(turns) && ctx.Err() == nil; i += cores {
				_, _, _ = s.set(ctx, turns[i])
			}
		})
	}
	wg.Wait()
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

// bottom is the lowest pressure of a set's first table, and deepest that of all.
func (s *shop) bottom() float64  { return s.low - beneath*(s.low-s.atm) }
func (s *shop) deepest() float64 { return s.atm * 1.02 }

// leaks is what is set aside for leaks at a pressure of the store, and what dryers blow off, kg/s.
func (s *shop) leaks(p float64) float64 { return s.leak*p/s.low + s.purge }

// set is a turn with what it takes, and the key of the set.
func (s *shop) set(ctx context.Context, t Turn) (out Switch, key string, err error) {
	uses, who := s.running(t)
	out = Switch{At: t.At, Who: who, Least: s.least(uses)}
	key = s.keep(uses)
	s.mu.Lock()
	e := s.tables[key]
	s.mu.Unlock()
	e.band.once.Do(func() { e.band.table, e.band.err = s.tabulate(ctx, uses, s.bottom()) })
	out.Table = e.band.table
	out.Deep = func() (*Table, error) {
		e.deep.once.Do(func() { e.deep.table, e.deep.err = s.tabulate(ctx, uses, s.deepest()) })
		return e.deep.table, e.deep.err
	}
	return out, key, e.band.err
}

// least is the pressure that each tool of a set needs, Pa abs.
func (s *shop) least(uses []job.InUse) []float64 {
	out := make([]float64, len(uses))
	for i, use := range uses {
		if pair, ok := s.m.PairOf(use); ok {
			out[i] = float64(pair.Least) + s.atm
		}
	}
	return out
}

// keep is the key of a set, which is remembered by it.
func (s *shop) keep(uses []job.InUse) string {
	key := job.KeyOf(uses)
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, ok := s.tables[key]; !ok {
		s.tables[key] = &entry{uses: uses}
	}
	return key
}

// tabulate asks the network what a set takes over the receiver's pressures.
func (s *shop) tabulate(ctx context.Context, uses []job.InUse, low float64) (*Table, error) {
	pairs := make([]int, len(uses))
	for i, use := range uses {
		p, _ := s.m.PairOf(use)
		pairs[i] = p.Index
	}
	// A solver of its own: what it was asked before must not show in the last digit, or
	// the same seed would not give the same day.
	solver := s.m.NewSolver()
	var failed error
	table := Tabulate(func(p float64) (float64, []float64, bool) {
		r, err := solver.Solve(ctx, s.held(uses, p))
		if err != nil {
			failed = err
		}
		if err != nil || !r.Solved {
			return 0, nil, false
		}
		out := s.leaks(p) + float64(air.Mass(r.Drawn()))
		tools := make([]float64, len(pairs))
		for i, k := range pairs {
			tools[i] = float64(r.Tools[k].Pressure) + s.atm
		}
		return out, tools, true
	}, low, s.high)
	if failed == nil && table == nil {
		failed = fmt.Errorf("no receiver pressure carries the set %v", uses)
	}
	return table, failed
}
