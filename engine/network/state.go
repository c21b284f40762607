package network

import "slices"

// State is an answer: pressures and flows by index. It belongs to the solver
// that gave it and holds until that solver is used again; Clone keeps it.
type State struct {
	Pressure []float64 // Pa absolute; zero where not determined
	Flow     []float64 // kg/s, positive from From to To
	Taken    []float64 // kg/s leaving at each node by demand and outflow
	// Determined is false for nodes whose pressure nothing sets: they are shut
	// off from every source.
	Determined []bool
	Iterations int
	Residual   Residual
}

// Residual is how well an answer meets the equations.
type Residual struct {
	Mass float64 // largest imbalance at a node, kg/s
	Law  float64 // largest error of a link's law as a share of its upstream p²
}

// Clone is a copy of its own.
func (s *State) Clone() *State {
	c := *s
	c.Pressure, c.Flow = slices.Clone(s.Pressure), slices.Clone(s.Flow)
	c.Taken, c.Determined = slices.Clone(s.Taken), slices.Clone(s.Determined)
	return &c
}
