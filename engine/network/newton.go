package network

import (
	"context"
	"math"

	"dropleg/engine/element"
)

// Limits of the iteration.
const (
	newtonSteps = 60
	// patience is how many steps may pass without halving the error.
	patience = 12
	// aim is the error of a link's flow, as a share of it, at which to stop;
	// enough is taken where rounding lets it come no closer.
	aim    = 1e-12
	enough = 1e-9
	// rounding is the error of p² that double precision cannot help.
	rounding = 1e-15
	// nothing is a flow (kg/s) beneath notice, and leastScale the largest flow of
	// a network that is as good as at rest.
	nothing    = 1e-18
	leastSlope = 1e-30 // the same over the squares of pressure that there are
	leastScale = 1e-6
	// restScale takes its place where rounding decides: in a network at rest the
	// last bit of a pressure behind a check valve is 1e-12 kg/s.
	restScale = 1e-2
	// A pressure falls or rises at most so much in one step, in squares.
	fall, rise = 1.0 / 16, 64
	// lift keeps the matrix regular where a part hangs on closed or choked
	// links only; it bends steps, never answers.
	lift = 1e-13
	// A factored matrix serves again while the error falls by this in a step.
	contraction = 0.1
	// Factors are kept only where making them costs more than a look at the
	// laws: multiplications per link.
	worthKeeping = 100
)

// Bounds of p², so that every network has a state, and one that no pressure can
// carry shows as nodes run empty or full. A demand tapers off from vacuum (0.1
// bar absolute, or a 32nd of the highest source if that is less) to void, a tenth
// of that; air put in tapers off above brim (10 kbar).
const (
	vacuum      = 1e8
	vacuumShare = 1e-3
	voidShare   = 1e-2
	brim        = 1e18
)

// look is what one look at all laws found. The error of a link's flow is given
// over what is allowed for it: a share of the flow, and what rounding of the
// pressures makes of it.
type look struct {
	fine  float64 // largest error, the share being aim
	fair  float64 // the same, the share being enough
	law   float64 // the worst by fine, kg/s
	link  int     // where
	mass  float64 // largest imbalance, kg/s
	scale float64 // largest flow, kg/s
}

// add counts one flow m that should be m0, with noise from rounding.
func (k *look) add(link int, m, m0, noise float64) {
	off := math.Abs(m0 - m)
	m = math.Abs(m)
	k.scale = max(k.scale, m)
	noise += nothing
	if f := off / (aim*m + noise); f > k.fine {
		k.fine, k.law, k.link = f, off, link
	}
	k.fair = max(k.fair, off/(enough*m+noise))
}

// met, passes and serves: as good as can be; within the tolerance promised; and
// within that but for pressures off by 1e-12, where steep laws with much rounding
// allow no better.
func (k look) met() bool    { return k.fine <= 1 && k.mass <= aim*k.scale }
func (k look) passes() bool { return k.fair <= 1 && k.mass <= enough*k.scale }
func (k look) serves() bool { return k.fair <= 1000 && k.mass <= enough*max(k.scale, restScale) }

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
// time further down.
func (s *Solver) iterate(ctx context.Context) error {
	if !s.warm {
		s.firstGuess()
	}
	for _, target := range [...]float64{1e-5, 1e-8, 1e-11} {
		met, err := s.newton(ctx)
		if met || err != nil {
			return err
		}
		if err := s.descend(ctx, target); err != nil {
			return err
		}
	}
	if s.look().serves() { // Newton's steps may lead away from a kink again
		return nil
	}
	_, err := s.newton(ctx)
	return err
}

// newton takes full steps on flows and pressures together. Each step meets the
// mass balance of all nodes exactly and the laws by their tangents.
func (s *Solver) newton(ctx context.Context) (bool, error) {
	last, best := math.Inf(1), math.Inf(1)
	sinceBest := 0
	fresh := true
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
		keep := s.top.pattern.Work() > worthKeeping*len(s.laws) && k.fine < contraction*last
		last = k.fine
		if fresh || !keep {
			s.assemble(0)
			s.factor.Factorize(&s.matrix)
			fresh = false
			keep = false
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
