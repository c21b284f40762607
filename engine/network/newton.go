package network

import (
	"context"
	"math"
)

// prepare sets the pressures to start from.
func (s *Solver) prepare() {
	top := 0.0
	for i := range s.nodes {
		v := &s.nodes[i]
		if v.Fixed {
			top = max(top, v.Pressure)
		} else if v.Outflow != nil {
			top = max(top, 2*v.Back)
		}
	}
	top = max(top, 1)
	s.ceiling = top * top
	s.vacuum = min(vacuum, vacuumShare*s.ceiling)
	for i := range s.nodes {
		if s.active[i] && s.nodes[i].Demand < 0 {
			s.ceiling = 4 * brim
		}
	}
	for i := range s.nodes {
		p := s.state.Pressure[i]
		if !s.warm || !(p*p >= voidShare*s.vacuum && p <= maxPressure) {
			p = top
		}
		if s.nodes[i].Fixed {
			p = s.nodes[i].Pressure
		}
		s.state.Pressure[i] = p
		s.square[i] = p * p
	}
	for l := range s.laws {
		if m := s.state.Flow[l]; !s.open(l) || math.IsNaN(m) || math.IsInf(m, 0) {
			s.state.Flow[l] = 0
		}
	}
	s.state.Iterations = 0
}

// iterate runs Newton's method; where that finds no end, the descent first, each
// time further down, and node by node where the descent sticks.
func (s *Solver) iterate(ctx context.Context) error {
	if !s.warm {
		s.firstGuess()
	}
	for _, target := range [...]float64{1e-5, 1e-8, 1e-11, 1e-11} {
		met, err := s.newton(ctx)
		if met || err != nil {
			return err
		}
		down, err := s.descend(ctx, target)
		if err != nil {
			return err
		}
		// Newton's steps may lead away from a kink again: what serves is kept.
		if down && target < enough && s.look().serves() {
			return nil
		}
		if !down {
			if err := s.relax(ctx); err != nil {
				return err
			}
		}
	}
	_, err := s.descend(ctx, 1e-11)
	return err
}

// newton takes full steps on flows and pressures together. Each step meets the
// mass balance of all nodes exactly and the laws by their tangents.
func (s *Solver) newton(ctx context.Context) (bool, error) {
	best, factoredAt := math.Inf(1), math.Inf(1)
	sinceBest := 0
	for range newtonSteps {
		k := s.look()
		if k.met() || k.passes() && sinceBest >= 2 {
			return true, nil
		}
		if err := ctx.Err(); err != nil {
			return false, err
		}
		sinceBest++
		if k.fine < best/2 {
			best, sinceBest = k.fine, 0
		}
		if sinceBest > patience {
			return false, nil
		}
		// One step with the factors at hand leaves about the product of the
		// present error and that at which they were made: enough for the last.
		share := min(1, k.fine*aim+k.mass/k.scale)
		keep := share*factoredAt < aim/10
		if !keep {
			s.assemble(0)
			s.factor.Factorize(&s.matrix)
			factoredAt = share
		}
		s.tell(k, Newton, !keep)
		s.correct()
	}
	return false, nil
}

func (s *Solver) tell(k look, how Method, factored bool) {
	s.state.Iterations++
	if s.Trace != nil {
		s.Trace.Step(Step{s.state.Iterations, how, k.law, k.link, k.mass, factored})
	}
}

// assemble fills the matrix with the slopes of the last look; damp, kg/s, holds
// each node back as if that flow were needed to move its pressure by all of it.
func (s *Solver) assemble(damp float64) {
	diag, off := s.matrix.Diag, s.matrix.Off
	for i := range diag {
		diag[i] = s.outFlow[i].g1
		s.usedOut[i] = s.outFlow[i].g1
	}
	copy(s.used, s.slope)
	for l := range s.slope {
		t := &s.slope[l]
		link := &s.top.links[l]
		from, to := link.From, link.To
		diag[from] += t.g1
		diag[to] -= t.g2
		off[2*l], off[2*l+1] = t.g2, -t.g1
		if s.nodes[from].Fixed || s.nodes[to].Fixed {
			off[2*l], off[2*l+1] = 0, 0 // a fixed node does not move
		}
	}
	for i := range diag {
		switch {
		case s.nodes[i].Fixed || !s.active[i]:
			diag[i] = 1
		case diag[i] > leastSlope:
			diag[i] = diag[i]*(1+lift) + damp/s.square[i]
		case damp > 0:
			diag[i] = damp / s.square[i]
		default: // nothing moves with this node: let it fall if it lacks air
			diag[i] = max(math.Abs(s.lack[i])/s.square[i], leastSlope)
		}
	}
}

// correct solves for the changes of p² and takes them, and the flows that go
// with them by the tangents. With factors of an earlier step the slopes are
// those of that step too, so that the mass balance still closes.
func (s *Solver) correct() {
	s.seen = false
	s.factor.Solve(s.lack)
	change := s.lack
	for l := range s.used {
		t := &s.used[l]
		link := &s.top.links[l]
		m := s.slope[l].m0 + t.g1*change[link.From] + t.g2*change[link.To]
		if m < 0 && !s.laws[l].reverse {
			m = 0
		}
		s.state.Flow[l] = m
	}
	for i := range s.nodes {
		if s.nodes[i].Fixed || !s.active[i] {
			continue
		}
		if s.nodes[i].Outflow != nil {
			s.state.Taken[i] = max(0, s.outFlow[i].m0+s.usedOut[i]*change[i])
		}
		s.move(i, change[i])
	}
}

// move changes p² of node i, within bounds: no pressure rises above all sources,
// and none jumps over the place where its outflow starts.
func (s *Solver) move(i int, change float64) {
	old := s.square[i]
	q := old + change
	if !(q > fall*old) { // catches NaN too
		q = fall * old
	}
	if back := s.nodes[i].Back; s.nodes[i].Outflow != nil && (old-back*back)*(q-back*back) < 0 {
		q = back * back
	}
	q = min(max(q, voidShare*s.vacuum), rise*max(old, s.vacuum), s.ceiling)
	s.square[i] = q
	s.state.Pressure[i] = math.Sqrt(q)
}
