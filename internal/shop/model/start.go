package model

import (
	"slices"

	"dropleg/engine/network"
	"dropleg/internal/shop/job"
)

// Start is pressures and flows of an earlier answer by the keys of nodes and
// elements, which an edit leaves alone: where another model may begin to look.
// The zero Start is none. It changes no answer, only the way to it.
type Start struct {
	running  []job.InUse
	pressure map[string]float64
	flow     map[flowKey]float64
}

// flowKey names a link across models.
type flowKey struct{ from, to, id string }

// StartFrom keeps a result of this model as a start for another.
func (m *Model) StartFrom(r *Result) Start {
	s := Start{running: r.Case.Running, pressure: make(map[string]float64, len(m.nodes)), flow: make(map[flowKey]float64, len(m.links))}
	for i, p := range r.Pressure {
		if r.Known[i] {
			s.pressure[m.nodes[i].Key] = float64(p)
		}
	}
	for i, f := range r.Flows {
		if f.Known {
			s.flow[m.keyOf(i)] = float64(f.Mass)
		}
	}
	return s
}

// keyOf names link i by its ends and its id.
func (m *Model) keyOf(i int) flowKey {
	l := &m.links[i]
	return flowKey{m.nodes[l.From].Key, m.nodes[l.To].Key, string(l.ID)}
}

// Begin makes the solver's first answers start from those of another model.
func (s *Solver) Begin(from Start) { s.from = from }

// fits says whether the start is of a case with the same tools running.
func (s Start) fits(c Case) bool {
	return len(s.pressure) > 0 && slices.Equal(s.running, c.Running)
}

// guess is the state of the network that the start tells.
func (s *Solver) guess(b *bench) *network.State {
	guess := network.State{Pressure: make([]float64, len(s.m.nodes)), Flow: make([]float64, len(s.m.links))}
	top := 0.0
	for _, p := range s.from.pressure {
		top = max(top, p)
	}
	for i := range s.m.nodes {
		p, ok := s.from.pressure[s.m.nodes[i].Key]
		if !ok {
			p = top // a new place: as high as any, so that nothing chokes at first
		}
		guess.Pressure[i] = p
	}
	for i := range s.m.links {
		flow, ok := s.from.flow[s.m.keyOf(i)]
		if !ok {
			flow, _, _ = b.set.links[i].Flow(guess.Pressure[s.m.links[i].From], guess.Pressure[s.m.links[i].To])
		}
		guess.Flow[i] = flow
	}
	return &guess
}
