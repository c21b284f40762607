package day

import (
	"context"
	"math"
	"slices"
)

// Flows is what a network does between its vessels.
type Flows struct {
	Pressure []float64 // of each vessel, Pa abs
	Out      []float64 // of each vessel into the network, kg/s; negative: it fills
	Tools    []float64 // at the tools of the set, Pa abs
	Known    bool      // false: the network has no answer there
}

// Net is the network between several vessels while a set of tools runs.
type Net interface {
	// Held is what leaves vessels that stand at some pressures.
	Held(p []float64) (Flows, error)
	// Exchanged is where vessels come to that give gives × (back − pressure) kg/s.
	Exchanged(back, gives []float64) (Flows, error)
}

// March carries a plant of several vessels through the switches; net gives the network of
// a switch. It integrates the vessels' balances with TR-BDF2, a step of the trapezoidal
// rule and one of the second backward difference, whose stages are each one solution of
// the network with the vessels in it (R. E. Bank et al., Transient simulation of silicon
// devices and circuits, 1985; error by the embedded formula of third order of M. E. Hosea
// and L. F. Shampine, Analysis and implementation of TR-BDF2, 1996; recalled). It is
// L-stable: a short line between two vessels costs no short steps. The switches of
// machines are landed on within half a pascal. A coarse run takes the implicit Euler
// rule, one solution a step, in which no pressure moves far.
func March(ctx context.Context, p Plant, sets []Switch, net func(set int) Net, o Options) (*Course, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	m := newMarcher(p, o)
	for i, s := range sets {
		end := o.End
		if i+1 < len(sets) {
			end = min(end, sets[i+1].At)
		}
		m.set = i
		if m.now >= end {
			continue
		}
		if err := m.hold(ctx, s, net(i), end); err != nil {
			return nil, err
		}
	}
	m.finish()
	return m.course, nil
}

// How finely it is marched.
const (
	within   = 1.0  // Pa that a step may miss by
	landed   = 0.5  // Pa from where a machine switches
	leastFor = 1e-6 // s: a shorter step is taken as it comes
	grow     = 4.0  // times the last step at most
	first    = 2.0  // s, after a switch
)

// The coefficients of TR-BDF2: the first stage ends at part of the step, the second weighs
// both earlier rates with outer and its own with own.
var (
	part  = 2 - math.Sqrt2
	outer = math.Sqrt2 / 4
	own   = part / 2
)

type marcher struct {
	board
	c    []float64 // R T/V by vessel
	now  float64
	set  int
	told Options
	at   Flows   // where it stands
	try  float64 // s: the next step
}

func newMarcher(p Plant, o Options) *marcher {
	m := &marcher{told: o, try: first}
	for _, v := range p.Vessels {
		m.c = append(m.c, gasConstant*p.Temperature/v.Volume)
		m.at.Pressure = append(m.at.Pressure, v.Start)
	}
	o.Start = p.Vessels[0].Start
	m.board = newBoard(p, o, func(machine int) float64 { return p.Vessels[p.Machines[machine].Vessel].Start })
	for _, v := range p.Vessels {
		m.course.Vessels = append(m.course.Vessels, [2]float64{v.Start, v.Start})
	}
	return m
}

// stands is the pressure that a machine feeds into.
func (m *marcher) stands(machine int) float64 { return m.at.Pressure[m.plant.Machines[machine].Vessel] }

// hold runs one set of tools until end.
func (m *marcher) hold(ctx context.Context, s Switch, net Net, end float64) error {
	if err := m.begin(net, len(s.Who), end); err != nil {
		return err
	}
	for m.now < end {
		if err := ctx.Err(); err != nil {
			return err
		}
		most := min(end-m.now, m.nextStop())
		w, err := m.step(net, len(s.Who), most)
		if err != nil {
			return err
		}
		m.book(s, w)
		m.at, m.now = w.end, m.now+w.h
		if end-m.now < 1e-9 { // less is a rounding of the clock
			m.now = end
		}
		m.control(m.stands, landed)
	}
	return nil
}

// begin looks at how a set begins; a coarse run takes it as it comes to be.
func (m *marcher) begin(net Net, tools int, end float64) error {
	if m.told.Coarse {
		m.at.Tools, m.try = nil, end-m.now
		return nil
	}
	m.try = first
	at, err := net.Held(m.at.Pressure)
	if err != nil {
		return err
	}
	if m.at = at; !at.Known {
		m.at = m.starved(tools)
	}
	return nil
}

// leap is a step with the states that it goes through.
type leap struct {
	h              float64
	from, mid, end Flows
	fromIn, midIn  []float64 // kg/s that machines bring to each vessel, less what it vents
	endIn          []float64
	fits           float64    // how many times as long it might be; below 1 it is too long
	weights        [3]float64 // of the three rates, shares of the step
}

// step takes the longest step that is near enough and in which no machine switches but at
// its end.
func (m *marcher) step(net Net, tools int, most float64) (leap, error) {
	h := min(m.try, most)
	for {
		leap := m.leap
		if m.told.Coarse {
			leap = m.stride
		}
		w, err := leap(net, tools, h)
		if err != nil {
			return w, err
		}
		if w.fits < 1 && h > leastFor {
			h *= max(0.1, 0.9*w.fits)
			continue
		}
		if x := m.switches(&w); x < 1 && h > leastFor {
			h *= max(x, 1e-3)
			continue
		}
		if h >= m.try || w.fits < 2 {
			m.try = h * min(grow, 0.9*w.fits)
		}
		return w, nil
	}
}

// brings is what machines bring to a vessel less what it vents, at a pressure, and the
// slope of it, as the machines run.
func (m *marcher) brings(vessel int, p float64) (flow, slope float64) {
	v := &m.plant.Vessels[vessel]
	flow, slope = -v.Purge-v.Leak*p, -v.Leak
	for i, k := range m.plant.Machines {
		if k.Vessel == vessel {
			f, g := k.gives(m.motors[i], p)
			flow, slope = flow+f, slope+g
		}
	}
	return flow, slope
}

// leap tries a step of h.
func (m *marcher) leap(net Net, tools int, h float64) (leap, error) {
	n := len(m.c)
	w := leap{h: h, weights: [3]float64{outer, outer, own}, from: m.at, fromIn: make([]float64, n), midIn: make([]float64, n), endIn: make([]float64, n)}
	f0, fa, base := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range m.at.Pressure {
		w.fromIn[i], _ = m.brings(i, p)
		f0[i] = m.c[i] * (w.fromIn[i] - m.at.Out[i])
		base[i] = p + own*h*f0[i]
	}
	var err error
	if w.mid, err = m.stage(net, tools, base, own*h, w.midIn); err != nil {
		return w, err
	}
	for i, p := range m.at.Pressure {
		fa[i] = m.c[i] * (w.midIn[i] - w.mid.Out[i])
		base[i] = p + outer*h*(f0[i]+fa[i])
	}
	if w.end, err = m.stage(net, tools, base, own*h, w.endIn); err != nil {
		return w, err
	}
	missed := 1e-9
	for i := range n {
		f1 := m.c[i] * (w.endIn[i] - w.end.Out[i])
		missed = max(missed, math.Abs(h/3*((4*outer-1)*f0[i]-fa[i]+2*own*f1)))
	}
	w.fits = math.Cbrt(within / missed)
	return w, nil
}

// stage solves p = base + span c (brings − out) for all vessels, and leaves in what was brought.
func (m *marcher) stage(net Net, tools int, base []float64, span float64, in []float64) (Flows, error) {
	n := len(m.c)
	back, gives := make([]float64, n), make([]float64, n)
	for i := range n {
		// The machines' law is a straight line about where they stand.
		p := m.at.Pressure[i]
		flow, slope := m.brings(i, p)
		gives[i] = 1/(span*m.c[i]) - slope
		back[i] = (flow - slope*p + base[i]/(span*m.c[i])) / gives[i]
	}
	out, err := net.Exchanged(back, gives)
	if err != nil {
		return out, err
	}
	if !out.Known {
		out = m.starved(tools)
		for i := range n {
			out.Pressure[i] = max(back[i]-out.Out[i]/gives[i], vacuum)
		}
	}
	for i := range n {
		flow, slope := m.brings(i, m.at.Pressure[i])
		in[i] = flow + slope*(out.Pressure[i]-m.at.Pressure[i])
		// What leaves follows from the balance itself: nothing is lost by rounding.
		out.Out[i] = in[i] - (out.Pressure[i]-base[i])/(span*m.c[i])
	}
	return out, nil
}

// vacuum keeps a vessel that is asked for more than there is from going below nothing, Pa.
const vacuum = 1e3

// starved is what is taken where the network has no answer: what was taken last, and the
// tools have nothing.
func (m *marcher) starved(tools int) Flows {
	f := Flows{Pressure: slices.Clone(m.at.Pressure), Out: slices.Clone(m.at.Out), Tools: make([]float64, tools)}
	if f.Out == nil {
		f.Out = make([]float64, len(m.c)) // the first set of all
	}
	return f
}

// switches is the share of a step at which the first machine switches or its law bends;
// 1 or more: none does before the end.
func (m *marcher) switches(w *leap) float64 {
	soon := 1.0
	for i, k := range m.plant.Machines {
		q := parabola{w.from.Pressure[k.Vessel], w.mid.Pressure[k.Vessel], w.end.Pressure[k.Vessel]}
		if m.motors[i] == loaded {
			soon = min(soon, q.passes(k.CutOut, landed))
			if k.Control == Speed {
				soon = min(soon, q.passes(k.CutIn, landed), q.passes(k.CutIn, -landed))
			}
		} else {
			soon = min(soon, q.passes(k.CutIn, -landed))
		}
	}
	return soon
}
