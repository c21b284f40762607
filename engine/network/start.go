package network

// firstGuess straightens every law through rest at a usual velocity and solves
// that linear network: flows of the right size and direction.
func (s *Solver) firstGuess() {
	clear(s.lack)
	for l := range s.laws {
		t := &s.slope[l]
		*t = tangent{}
		if !s.open(l) {
			continue
		}
		link := &s.top.links[l]
		p := max(s.state.Pressure[link.From], s.state.Pressure[link.To])
		g := s.laws[l].start(p)
		t.g1, t.g2 = g, -g
		t.m0 = g * (s.square[link.From] - s.square[link.To])
		s.lack[link.From] -= t.m0
		s.lack[link.To] += t.m0
	}
	for i := range s.nodes {
		v := &s.nodes[i]
		s.outFlow[i] = tangent{}
		if v.Fixed || !s.active[i] {
			s.lack[i] = 0
			continue
		}
		if v.Outflow != nil {
			p := s.state.Pressure[i]
			m, _, _ := s.out[i].law.Flow(p, v.Back)
			m = max(m, 0)
			s.outFlow[i] = tangent{m0: m, g1: m / (p * p)}
		}
		s.lack[i] -= v.Demand + s.outFlow[i].m0
	}
	s.assemble(0)
	s.factor.Factorize(&s.matrix)
	s.tell(look{link: -1}, First, true)
	s.correct()
}

// start is a rough flow per difference of p² near p.
func (v *slot) start(p float64) float64 {
	if v.linear != nil {
		return v.linear.Start(p)
	}
	m, _, _ := v.law.Flow(p, 0.9*p)
	return max(m, 1e-12) / (0.19 * max(p*p, 1e-6))
}
