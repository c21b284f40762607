package model

import (
	"slices"

	"dropleg/engine/network"
	"dropleg/internal/shop/job"
)

// Start is an earlier answer, mostly of another revision, where a solver may
// begin to look: nodes and elements are known again by their keys, which an edit
// leaves alone. The zero Start is none. It changes no answer, only the way to it.
type Start struct {
	m *Model
	r *Result
}

// StartFrom keeps a result of this model as a start for another.
func (m *Model) StartFrom(r *Result) Start { return Start{m, r} }

// Begin makes the solver's first answers start from those of another model.
func (s *Solver) Begin(from Start) { s.from = from }

// fits says whether the start is of a case with the same tools running.
func (s Start) fits(c Case) bool {
	return s.m != nil && slices.Equal(s.r.Case.Running, c.Running)
}

// flowKey names a link across models.
type flowKey struct {
	from, to string
	id       job.ID
}

func (m *Model) keyOf(link int) flowKey {
	l := &m.links[link]
	return flowKey{m.nodes[l.From].Key, m.nodes[l.To].Key, l.ID}
}

// finder finds things of a model by key. Most edits leave every thing in its
// place, so that is where it looks first; the rest are listed on first need.
type finder[K comparable] struct {
	n     int
	keyOf func(int) K
	at    map[K]int
}

func (f *finder[K]) find(key K, likely int) (int, bool) {
	if likely < f.n && f.keyOf(likely) == key {
		return likely, true
	}
	if f.at == nil {
		f.at = make(map[K]int, f.n)
		for i := range f.n {
			f.at[f.keyOf(i)] = i
		}
	}
	i, ok := f.at[key]
	return i, ok
}

// guess is the state of the live part that the start tells.
func (s *Solver) guess() *network.State {
	m, live, old := s.m, s.live, s.from
	n := len(live.nodes)
	guess := network.State{Pressure: make([]float64, n), Flow: make([]float64, len(live.links)), Taken: make([]float64, n)}
	top := 0.0
	for _, p := range old.r.Pressure {
		top = max(top, float64(p))
	}
	nodes := finder[string]{n: len(old.m.nodes), keyOf: func(i int) string { return old.m.nodes[i].Key }}
	for i, node := range live.nodes {
		p := top // of a new place: as high as any, so that nothing chokes at first
		if was, ok := nodes.find(m.nodes[node].Key, node); ok && old.r.Known[was] {
			p = float64(old.r.Pressure[was])
		}
		guess.Pressure[i] = p
		if v := live.net.Node(i); v.Outflow != nil {
			guess.Taken[i], _, _ = v.Outflow.Flow(p, v.Back)
		}
	}
	links := finder[flowKey]{n: len(old.m.links), keyOf: old.m.keyOf}
	for i, l := range live.links {
		if was, ok := links.find(m.keyOf(l), l); ok && old.r.Flows[was].Known {
			guess.Flow[i] = float64(old.r.Flows[was].Mass)
			continue
		}
		from, to := live.at[m.links[l].From], live.at[m.links[l].To]
		guess.Flow[i], _, _ = s.set.links[l].Flow(guess.Pressure[from], guess.Pressure[to])
	}
	return &guess
}
