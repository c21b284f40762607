package study

import (
	"context"
	"fmt"
	"sync"

	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/model"
)

// Shown is one set of tools at one end of the pressure band: what a drawing shows.
type Shown struct {
	Set    demand.Set
	Supply model.Supply
	State  *flow.State // nil: no set of tools runs in this job
	// Supposed: the set was the shop's worst in an earlier revision and whether it
	// still is has not been worked out. The figures are of this revision all the same.
	Supposed bool
}

// State answers one set in one case alone, which takes a hundredth of what Flow
// takes in a large shop. The key is that of the set; "" is the shop's worst: as
// Flow found it, else as it was when Flow was last asked for, before the edits
// since, which is then told (Shown.Supposed). Where no revision knows, Flow is
// asked. The key of a moment (Moment) is what runs then, with the receivers as they stand
// then, by the days of an earlier revision where those of this one are not worked out
// (Supposed). An unknown key is a *NoSet.
func (s *Study) State(ctx context.Context, key string, supply model.Supply) (*Shown, error) {
	if supply == "" {
		supply = model.CutIn
	}
	if at, ok := momentOf(key); ok {
		return s.then(ctx, key, at)
	}
	_, known := s.flow.peek()
	supposed := key == "" && !known && s.worst != ""
	if supposed {
		key = s.worst
	}
	if key == "" || known {
		return s.fromFlow(ctx, key, supply)
	}
	shown, err := s.states.at(stateKey{key, supply}).get(ctx, func(ctx context.Context) (*Shown, error) {
		return s.alone(ctx, key, supply)
	})
	switch {
	case err != nil:
		return nil, err
	case shown == nil && supposed: // the tool or the set is gone
		return s.fromFlow(ctx, "", supply)
	case shown == nil:
		return nil, &NoSet{key}
	}
	out := *shown
	out.Supposed = supposed
	return &out, nil
}

// NoSet is a key of which the job has no set.
type NoSet struct{ Key string }

func (e *NoSet) Error() string { return fmt.Sprintf("no set of tools %q", e.Key) }

// fromFlow takes a state out of the full answer.
func (s *Study) fromFlow(ctx context.Context, key string, supply model.Supply) (*Shown, error) {
	a, err := s.Flow(ctx)
	switch {
	case err != nil:
		return nil, err
	case key == "" && len(a.Sets) == 0:
		return &Shown{Supply: supply}, nil
	case key == "":
		key = a.Sets[max(a.Worst, 0)].Key()
	}
	set := a.Find(key)
	if set == nil {
		return nil, &NoSet{key}
	}
	return &Shown{Set: set.Set, Supply: supply, State: set.State(supply)}, nil
}

// alone solves one set in one case; nil where there is no such set.
func (s *Study) alone(ctx context.Context, key string, supply model.Supply) (*Shown, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	set, ok := s.setOf(m, key)
	if !ok {
		return nil, nil
	}
	start := startFor(s.starts, stateKey{key, supply})
	state, err := flow.One(ctx, s.job, m, set, supply, start)
	if err != nil {
		return nil, fmt.Errorf("flow of %q: %w", set.Name, err)
	}
	return &Shown{Set: set, Supply: supply, State: &state}, nil
}

// setOf finds one set, in the demand where that stands already.
func (s *Study) setOf(m *model.Model, key string) (demand.Set, bool) {
	d, ok := s.demand.peek()
	if !ok {
		return demand.One(s.job, m, key)
	}
	for _, set := range d.Sets {
		if set.Key() == key {
			return set, true
		}
	}
	return demand.Set{}, false
}

// stateKey names a state.
type stateKey struct {
	set    string
	supply model.Supply
}

// states keeps what State found.
type states struct {
	mu    sync.Mutex
	known map[stateKey]*once[*Shown]
	order []stateKey // as first asked for
}

// at is the place of an answer.
func (s *states) at(key stateKey) *once[*Shown] {
	s.mu.Lock()
	defer s.mu.Unlock()
	o := s.known[key]
	if o == nil {
		if s.known == nil {
			s.known = map[stateKey]*once[*Shown]{}
		}
		o = &once[*Shown]{}
		s.known[key], s.order = o, append(s.order, key)
	}
	return o
}

// found lists the answers that stand, in the order asked.
func (s *states) found() []*Shown {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []*Shown
	for _, key := range s.order {
		if shown, ok := s.known[key].peek(); ok && shown != nil {
			out = append(out, shown)
		}
	}
	return out
}

// carryTo plants the answers in the next revision.
func (s *states) carryTo(next *states) {
	for _, shown := range s.found() {
		next.at(stateKey{shown.Set.Key(), shown.Supply}).keep(shown)
	}
}
