package network

import (
	"context"
	"math"
)

const (
	descentSteps = 400
	// A step counts when it brings this share of what its tangents promise, and
	// the next may be bolder when it brings so much.
	leastGain, goodGain = 0.1, 0.4
)

// descend solves on pressures alone and lets the sum of all imbalances |F| fall
// in every step. But for rounding it always can: the laws are monotone and what leaves one node
// enters another, so the matrix A of slopes is diagonally dominant by columns,
// and a step (A + D) δ = F with a diagonal D > 0 promises |D δ| < |F| (dp²/dt = F
// is a contraction in that norm, kinks or not, and this is its implicit Euler
// step). D grows when a step fails and fades when it succeeds, which turns the
// steps into Newton's. It ends where the sum is below target times the largest
// flow (down), or when it sticks.
func (s *Solver) descend(ctx context.Context, target float64) (down bool, err error) {
	s.seen = false
	sum, k := s.imbalance()
	damp := 1.0
	for range descentSteps {
		if sum <= target*k.scale || damp > 1e14 {
			break
		}
		if err := ctx.Err(); err != nil {
			return false, err
		}
		hold := damp * k.scale
		s.assemble(hold)
		s.factor.Factorize(&s.matrix)
		s.tell(k, Descent, true)
		s.factor.Solve(s.lack)
		copy(s.trial, s.square)
		promise := sum - s.advance(s.stride(), sum, hold)
		next, nextLook := s.imbalance()
		// A part that hangs on closed and choked links promises nothing as it moves
		// and yet must move: no loss is enough there.
		gain := sum - next + k.noise
		if promise = max(promise, 0); gain >= leastGain*promise {
			if gain >= goodGain*promise {
				damp = max(damp/8, 1e-9)
			}
			sum, k = next, nextLook
			continue
		}
		damp *= 4
		copy(s.square, s.trial)
		for i, q := range s.square {
			s.state.Pressure[i] = math.Sqrt(q)
		}
		sum, k = s.imbalance()
	}
	s.takeFlows()
	return sum <= target*k.scale, nil
}

// takeFlows makes the flows those of the laws as last looked at.
func (s *Solver) takeFlows() {
	for l := range s.slope {
		s.state.Flow[l] = s.slope[l].m0
	}
	for i := range s.nodes {
		s.state.Taken[i] = s.outFlow[i].m0
	}
}

// stride is how much of the correction in s.lack may be taken at once: until the
// first pressure stands where its outflow starts. All pressures then move alike,
// for parts that hang together must not be torn.
func (s *Solver) stride() float64 {
	part := 1.0
	for i := range s.nodes {
		v := &s.nodes[i]
		if v.Outflow == nil || v.Fixed || !s.active[i] {
			continue
		}
		if toBack := v.Back*v.Back - s.square[i]; toBack*s.lack[i] > 0 {
			part = min(part, toBack/s.lack[i])
		}
	}
	return part
}

// advance takes part of the correction and returns the imbalance that the
// tangents leave behind.
func (s *Solver) advance(part, sum, hold float64) float64 {
	left := (1 - part) * sum
	for i := range s.nodes {
		if !s.nodes[i].Fixed && s.active[i] {
			left += part * hold / s.square[i] * math.Abs(s.lack[i])
			s.move(i, part*s.lack[i])
		}
	}
	return left
}

// imbalance takes the tangents at the pressures, and sums what the nodes lack.
func (s *Solver) imbalance() (float64, look) {
	k := look{link: -1, scale: leastScale}
	clear(s.lack)
	for l := range s.laws {
		t := &s.slope[l]
		*t = tangent{}
		if !s.open(l) {
			continue
		}
		link := &s.top.links[l]
		t.m0, t.g1, t.g2 = byPressure(&s.laws[l], s.state.Pressure[link.From], s.state.Pressure[link.To])
		// A flow that goes as a root swings over with its own slope; with that of
		// the chord to rest it does not.
		if d := s.square[link.From] - s.square[link.To]; d != 0 && t.g1 > 0 && t.g2 < 0 {
			chord := t.m0 / d
			t.g1, t.g2 = max(t.g1, chord), min(t.g2, -chord)
		}
		s.lack[link.From] -= t.m0
		s.lack[link.To] += t.m0
		k.scale = max(k.scale, math.Abs(t.m0))
		k.noise += rounding * (t.g1*s.square[link.From] - t.g2*s.square[link.To])
	}
	sum := 0.0
	for i := range s.nodes {
		v := &s.nodes[i]
		t := &s.outFlow[i]
		*t = tangent{}
		if v.Fixed || !s.active[i] {
			s.lack[i] = 0
			continue
		}
		demand, slope := s.taper(v.Demand, s.square[i])
		if v.Outflow != nil && s.state.Pressure[i] > v.Back {
			t.m0, t.g1, _ = byPressure(&s.out[i], s.state.Pressure[i], v.Back)
		}
		t.g1 += slope
		s.lack[i] -= demand + t.m0
		sum += math.Abs(s.lack[i])
		k.mass = max(k.mass, math.Abs(s.lack[i]))
		k.scale = max(k.scale, math.Abs(v.Demand), t.m0)
	}
	return sum, k
}
