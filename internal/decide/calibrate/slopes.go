package calibrate

import (
	"math"

	"dropleg/engine/element"
	"dropleg/engine/network"
	"dropleg/internal/decide/find"
)

// A regulator is set by hand and by a gauge of its own: Pa, common practice, no source; and
// the step by which that is felt.
const (
	setDoubt = 10e3
	setStep  = 10
)

// slopes are those by the figures and by what elements are not known to.
func (v *view) slopes(s *sight, state *network.State, pull []float64) {
	elements := v.model.Elements()
	more := func(i int) float64 { // of the pressure read, per unit of what the element passes more
		return pull[elements[i].From] - pull[elements[i].To]
	}
	for k, f := range v.figures {
		if f.what == Leak {
			// At which outlet it leaks nobody knows: of each its whole share is in doubt.
			for i, n := range v.leaky() {
				one := pull[n] * v.leak / float64(len(v.leaky()))
				s.by[k] += one * f.spread
				s.nu[len(elements)+len(v.model.Pairs())+i] = one
			}
			continue
		}
		for _, i := range f.links {
			p1, p2 := state.Pressure[elements[i].From], state.Pressure[elements[i].To]
			now, _, _ := v.laws.Links[i].Flow(p1, p2)
			then, _, _ := v.next.Links[i].Flow(p1, p2)
			s.by[k] += more(i) * (then - now) / little
		}
	}
	for i := range elements {
		if reg, ok := v.laws.Links[i].(*element.Regulator); ok {
			p1, p2 := state.Pressure[elements[i].From], state.Pressure[elements[i].To]
			then, _, _ := reg.SetTo(reg.Set()+setStep).Flow(p1, p2)
			s.nu[i] = more(i) * (then - state.Flow[i]) / setStep * setDoubt
		} else if !v.fitted[i] {
			s.nu[i] = more(i) * state.Flow[i] * v.inexact[i]
		}
	}
}

// toolSlopes are those by what tools are not known to take.
func (v *view) toolSlopes(s *sight, r *find.Reading, state *network.State, pull []float64, took map[int]float64) {
	for _, u := range r.Running {
		pair, ok := v.model.PairOf(u)
		if !ok {
			continue
		}
		flow, constant := took[pair.Node]
		if !constant {
			flow = state.Taken[pair.Node]
		}
		doubt := find.LeastDoubt
		for _, t := range v.model.Tools() {
			if t.ID == pair.Tool && t.Low > 0 && t.High > t.Low {
				doubt = math.Hypot(doubt, math.Log(float64(t.High/t.Low))/2/oddsOfNormal)
			}
		}
		s.nu[len(v.model.Elements())+pair.Index] = pull[pair.Node] * flow * doubt
	}
}
