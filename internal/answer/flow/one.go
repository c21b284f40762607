package flow

import (
	"context"

	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// One solves one set at one end of the band: the state that Of has there, to the
// solver's tolerance, without ranges (Tool.Range). The error is that of ctx.
func One(ctx context.Context, j *job.Job, m *model.Model, set demand.Set, supply model.Supply, start model.Start) (State, error) {
	return In(ctx, j, m, model.Case{Running: set.Running, Supply: supply}, start)
}

// In solves one case, as One does one set. The error is that of ctx.
func In(ctx context.Context, j *job.Job, m *model.Model, c model.Case, start model.Start) (State, error) {
	w := &work{j: j, m: m, solver: m.NewSolver()}
	w.solver.Begin(start)
	return w.state(ctx, c)
}

// State is the state at one end of the band.
func (s *Set) State(supply model.Supply) *State {
	if supply == model.CutOut {
		return &s.CutOut
	}
	return &s.CutIn
}

// Find is the set of a key (demand.Set.Key), nil for none.
func (a *Answer) Find(key string) *Set {
	for i := range a.Sets {
		if a.Sets[i].Key() == key {
			return &a.Sets[i]
		}
	}
	return nil
}
