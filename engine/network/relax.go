package network

import (
	"context"
	"math"

	"dropleg/engine/num/root"
)

const (
	relaxSweeps = 4
	// relaxFine is how finely a pressure is sought, as a share of it.
	relaxFine = 1e-15
)

// relax balances one node after the other with its neighbours held (nonlinear
// Gauss-Seidel). For monotone laws that comes nearer with every sweep, however
// sharp the kinks (Rheinboldt 1970, recalled); it is slow, and so serves only to
// carry the descent past a kink on which it sticks.
func (s *Solver) relax(ctx context.Context) error {
	s.seen = false
	for range relaxSweeps {
		if err := ctx.Err(); err != nil {
			return err
		}
		for i := range s.nodes {
			if !s.nodes[i].Fixed && s.active[i] {
				s.balance(i)
			}
		}
	}
	s.imbalance()
	s.takeFlows()
	return nil
}

// balance finds the pressure at which node i gets what it gives.
func (s *Solver) balance(i int) {
	lack := func(p float64) float64 { return s.lackAt(i, p) }
	now := lack(s.state.Pressure[i])
	low, high := math.Sqrt(voidShare*s.vacuum), math.Sqrt(s.ceiling)
	switch {
	case now == 0:
		return
	case now > 0:
		low = s.state.Pressure[i]
	default:
		high = s.state.Pressure[i]
	}
	p, err := root.Bracketed(lack, low, high, relaxFine*high)
	if err != nil { // no balance within bounds: the bound towards it
		p = high
		if now < 0 {
			p = low
		}
	}
	s.state.Pressure[i], s.square[i] = p, p*p
}

// lackAt is what node i would gain, kg/s, with its pressure at p.
func (s *Solver) lackAt(i int, p float64) float64 {
	v := &s.nodes[i]
	demand, _ := s.taper(v.Demand, p*p)
	sum := -demand
	if v.Outflow != nil && p > v.Back {
		m, _, _ := v.Outflow.Flow(p, v.Back)
		sum -= m
	}
	for _, l := range s.top.linkAt[s.top.nodePtr[i]:s.top.nodePtr[i+1]] {
		if !s.open(int(l)) {
			continue
		}
		link := &s.top.links[l]
		if link.From == i {
			m, _, _ := s.laws[l].law.Flow(p, s.state.Pressure[link.To])
			sum -= m
		} else {
			m, _, _ := s.laws[l].law.Flow(s.state.Pressure[link.From], p)
			sum += m
		}
	}
	return sum
}
