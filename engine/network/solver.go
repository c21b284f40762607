package network

import (
	"context"
	"math"

	"dropleg/engine/element"
	"dropleg/engine/num/sparse"
)

// Solver answers one topology again and again with changed pressures, demands
// and laws. It starts from its last answer unless told to Forget it. A solver
// belongs to one goroutine at a time; after the first answer it allocates
// nothing.
type Solver struct {
	Trace Trace // nil: nobody watches

	top   *Topology
	nodes []Node
	laws  []slot
	out   []slot // outflows, by node

	active []bool // nodes whose pressure is solved for
	fed    []bool
	levels []bool
	queue  []int32
	stale  bool // reach must be looked at again

	square  []float64 // p²
	slope   []tangent // as of the last look at the laws
	factor  *sparse.Factor
	matrix  sparse.Matrix
	used    []tangent // slopes in the matrix that is factored
	usedOut []float64
	outFlow []tangent
	lack    []float64 // imbalance, then correction
	state   State
	warm    bool
	last    look
	seen    bool    // last holds for the present state
	plain   bool    // every node is fed, and every link passes both ways
	ceiling float64 // no p² can be above it
	vacuum  float64 // p² at which demands begin to taper off
	trial   []float64
	block   []int32
}

// slot is a law with what it offers beside Flow, looked up once.
type slot struct {
	law      element.Law
	linear   element.Linear
	directed element.Directed
	forward  bool
	reverse  bool
}

// tangent is flow ≈ m0 + g1 δ(p1²) + g2 δ(p2²).
type tangent struct{ m0, g1, g2 float64 }

func newSlot(l element.Law) slot {
	s := slot{law: l, forward: true, reverse: true}
	s.linear, _ = l.(element.Linear)
	if d, ok := l.(element.Directed); ok {
		s.directed = d
		s.forward, s.reverse = d.Passes()
	}
	return s
}

// NewSolver makes a solver that starts with the network as compiled.
func (t *Topology) NewSolver() *Solver {
	n, l := len(t.nodes), len(t.links)
	// Cut from few pieces: a small network is solved in less time than sixty
	// allocations take.
	floats := make([]float64, 7*n+3*l)
	cut := func(k int) []float64 {
		piece := floats[:k:k]
		floats = floats[k:]
		return piece
	}
	bools, tangents, slots, ints := make([]bool, 4*n), make([]tangent, n+2*l), make([]slot, n+l), make([]int32, 2*n)
	s := &Solver{
		top: t, nodes: append([]Node(nil), t.nodes...), laws: slots[:l:l], out: slots[l:],
		active: bools[:n:n], fed: bools[n : 2*n : 2*n], levels: bools[2*n : 3*n : 3*n],
		queue: ints[:0:n], block: ints[n:], stale: true, square: cut(n),
		slope: tangents[:l:l], used: tangents[l : 2*l : 2*l], outFlow: tangents[2*l:],
		usedOut: cut(n), lack: cut(n), trial: cut(n), factor: sparse.NewFactor(t.pattern),
		state:  State{Pressure: cut(n), Flow: cut(l), Taken: cut(n), Determined: bools[3*n:]},
		matrix: sparse.Matrix{Diag: cut(n), Off: cut(2 * l)},
	}
	for i, link := range t.links {
		s.laws[i] = newSlot(link.Law)
	}
	for i, v := range t.nodes {
		if v.Outflow != nil {
			s.out[i] = newSlot(v.Outflow)
		}
	}
	return s
}

// Topology is what the solver was made from.
func (s *Solver) Topology() *Topology { return s.top }

// Node is node i as it stands in this solver.
func (s *Solver) Node(i int) Node { return s.nodes[i] }

// SetPressure fixes the pressure of node i, Pa absolute.
func (s *Solver) SetPressure(i int, p float64) {
	s.stale = s.stale || !s.nodes[i].Fixed
	s.nodes[i].Fixed, s.nodes[i].Pressure = true, p
}

// Free lets the pressure of node i follow from the balance.
func (s *Solver) Free(i int) {
	s.stale = s.stale || s.nodes[i].Fixed
	s.nodes[i].Fixed = false
}

// SetDemand sets what is taken out at node i, kg/s.
func (s *Solver) SetDemand(i int, d float64) {
	s.stale = s.stale || (d > 0) != (s.nodes[i].Demand > 0) || (d < 0) != (s.nodes[i].Demand < 0)
	s.nodes[i].Demand = d
}

// SetOutflow sets the law by which air leaves node i to a place at back, Pa
// absolute; nil: none.
func (s *Solver) SetOutflow(i int, l element.Law, back float64) {
	s.stale = true
	s.nodes[i].Outflow, s.nodes[i].Back = l, back
	s.out[i] = slot{}
	if l != nil {
		s.out[i] = newSlot(l)
	}
}

// SetLaw changes the law of link i.
func (s *Solver) SetLaw(i int, l element.Law) {
	s.stale = true
	s.laws[i] = newSlot(l)
}

// Forget makes the next Solve start from nothing.
func (s *Solver) Forget() { s.warm = false }

// StartFrom makes the next Solve start from an answer of the same topology,
// one of another solver or an older one.
func (s *Solver) StartFrom(a *State) {
	copy(s.state.Pressure, a.Pressure)
	copy(s.state.Flow, a.Flow)
	copy(s.state.Taken, a.Taken)
	s.warm = true
}

// Solve finds the answer. The error is a *NoAnswer, with the state of what can
// be answered, or that of ctx, with none.
func (s *Solver) Solve(ctx context.Context) (*State, error) {
	if bad := s.badNumbers(); bad != nil {
		return nil, bad
	}
	if s.stale {
		s.reach()
		s.stale = false
	}
	s.prepare()
	if err := s.iterate(ctx); err != nil {
		s.warm = false
		return nil, err
	}
	none := s.conclude()
	s.warm = none == nil
	if none != nil {
		return &s.state, none
	}
	return &s.state, nil
}

// badNumbers refuses what no arithmetic survives.
func (s *Solver) badNumbers() error {
	var bad []Short
	for i := range s.nodes {
		v := &s.nodes[i]
		if v.Fixed && !(v.Pressure >= 0 && v.Pressure <= maxPressure) || math.IsNaN(v.Demand) ||
			math.Abs(v.Demand) > maxFlow || v.Outflow != nil && !(v.Back >= 0 && v.Back <= maxPressure) {
			bad = append(bad, Short{Node: i, Name: v.Name, Demand: v.Demand})
		}
	}
	if bad == nil {
		return nil
	}
	return &NoAnswer{Reason: BadNumber, Nodes: bad}
}

// Bounds on what is taken as a pressure (Pa) and a flow (kg/s): far beyond any
// air system, and squares stay well inside double precision.
const (
	maxPressure = 1e10
	maxFlow     = 1e9
)
