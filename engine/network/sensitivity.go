package network

// Sensitivity tells how an answer moves when something is changed a little. It
// holds for the answer that the solver gave last, until the solver is used
// again. Nodes that are not determined, or hang on links that do not act, do
// not move.
type Sensitivity struct {
	s *Solver
	// Slopes of the laws at the answer, by p rather than p².
	d1, d2 []float64
}

// Sensitivity takes the slopes of all laws at the last answer and factors once;
// each question to it then costs one solution.
func (s *Solver) Sensitivity() *Sensitivity {
	s.look()
	s.assemble(0)
	s.factor.Factorize(&s.matrix)
	v := &Sensitivity{s: s, d1: make([]float64, len(s.slope)), d2: make([]float64, len(s.slope))}
	for l := range s.slope {
		link := &s.top.links[l]
		v.d1[l] = s.slope[l].g1 * 2 * s.state.Pressure[link.From]
		v.d2[l] = s.slope[l].g2 * 2 * s.state.Pressure[link.To]
	}
	return v
}

// ByDemand fills dp with dp/d(demand at node i), Pa·s/kg: what all pressures
// lose as node i takes a little more.
func (v *Sensitivity) ByDemand(i int, dp []float64) {
	clear(dp)
	if !v.solved(i) {
		return
	}
	dp[i] = -1
	v.s.factor.Solve(dp)
	v.toPressure(dp)
}

// BySource fills dp with dp/dp(i), where node i has a fixed pressure.
func (v *Sensitivity) BySource(i int, dp []float64) {
	clear(dp)
	if !v.s.nodes[i].Fixed {
		return
	}
	t := v.s.top
	for _, l := range t.linkAt[t.nodePtr[i]:t.nodePtr[i+1]] {
		link := &t.links[l]
		if link.From == i && v.solved(link.To) {
			dp[link.To] += v.d1[l]
		}
		if link.To == i && v.solved(link.From) {
			dp[link.From] -= v.d2[l]
		}
	}
	v.s.factor.Solve(dp)
	v.toPressure(dp)
	dp[i] = 1
}

// Of fills pull with dp(i)/d(demand at each node), Pa·s/kg: what one pressure
// loses as any node takes a little more. A link that passes a little more, δm,
// from a to b changes p(i) by (pull[a] − pull[b])·δm, which ranks what would help
// node i most.
func (v *Sensitivity) Of(i int, pull []float64) {
	clear(pull)
	if !v.solved(i) {
		return
	}
	pull[i] = -1 / (2 * v.s.state.Pressure[i])
	v.s.factor.SolveTransposed(pull)
	for j := range pull {
		if !v.solved(j) {
			pull[j] = 0
		}
	}
}

// solved tells whether the pressure of node i follows from the balance.
func (v *Sensitivity) solved(i int) bool {
	return v.s.active[i] && !v.s.nodes[i].Fixed && v.s.state.Pressure[i] > 0
}

// toPressure turns changes of p² into changes of p.
func (v *Sensitivity) toPressure(dp []float64) {
	for j := range dp {
		if v.solved(j) {
			dp[j] /= 2 * v.s.state.Pressure[j]
		} else {
			dp[j] = 0
		}
	}
}
