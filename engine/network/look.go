package network

import (
	"math"

	"dropleg/engine/element"
)

// look takes the tangents of all laws at the present state into s.slope and
// s.outFlow, and the imbalance that they leave into s.lack.
func (s *Solver) look() look {
	k := look{link: -1, scale: leastScale}
	lack, net := s.lack, s.trial
	clear(lack)
	clear(net)
	for l := range s.laws {
		t := &s.slope[l]
		if !s.open(l) {
			*t = tangent{}
			continue
		}
		link := &s.top.links[l]
		from, to := link.From, link.To
		p1, p2, m := s.state.Pressure[from], s.state.Pressure[to], s.state.Flow[l]
		if lin := s.laws[l].linear; lin != nil {
			t.m0, t.g1, t.g2 = lin.Tangent(p1, p2, m)
		} else {
			t.m0, t.g1, t.g2 = element.TangentByPressure(s.laws[l].law, p1, p2)
		}
		lack[from] -= t.m0
		lack[to] += t.m0
		net[from] -= m
		net[to] += m
		k.add(l, m, t.m0, rounding*(s.square[from]*t.g1-s.square[to]*t.g2))
	}
	s.lookNodes(&k)
	s.last, s.seen = k, true
	return k
}

// lookNodes adds what leaves at the nodes.
func (s *Solver) lookNodes(k *look) {
	for i := range s.nodes {
		v := &s.nodes[i]
		t := &s.outFlow[i]
		*t = tangent{}
		if v.Fixed || !s.active[i] {
			s.lack[i] = 0
			continue
		}
		demand, slope := s.taper(v.Demand, s.square[i])
		t.g1 = slope
		out := s.state.Taken[i]
		if v.Outflow != nil {
			m0, g1 := s.outward(i, out)
			t.m0 = m0
			t.g1 += g1
			k.add(-1, out, m0, rounding*s.square[i]*g1)
		} else {
			out = 0
		}
		s.lack[i] -= demand + t.m0
		k.mass = max(k.mass, math.Abs(s.trial[i]-demand-out))
		k.scale = max(k.scale, math.Abs(v.Demand))
	}
}

// outward is the tangent of the outflow at node i, where out flows at present.
func (s *Solver) outward(i int, out float64) (m0, g1 float64) {
	p, back := s.state.Pressure[i], s.nodes[i].Back
	if p <= back && out <= 0 {
		return 0, 0
	}
	if lin := s.out[i].linear; lin != nil {
		m0, g1, _ = lin.Tangent(p, back, max(out, 0))
	} else {
		m0, g1, _ = element.TangentByPressure(s.out[i].law, p, back)
	}
	return m0, g1
}

// taper is a demand and its slope by p²: see vacuum and brim.
func (s *Solver) taper(d, square float64) (m, slope float64) {
	switch {
	case d > 0 && square < s.vacuum:
		void := voidShare * s.vacuum
		return d * max(0, square-void) / (s.vacuum - void), d / (s.vacuum - void)
	case d < 0 && square > brim:
		return d * max(0, 2-square/brim), -d / brim
	}
	return d, 0
}
