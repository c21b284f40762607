package day

import "slices"

// book books a step of several vessels: every flow by the weights of the step's rates, so
// that what is gained is what came less what went.
func (m *marcher) book(s Switch, w leap) {
	c := m.course
	of := w.weights
	weigh := func(a, b, e float64) float64 { return w.h * (of[0]*a + of[1]*b + of[2]*e) }
	in := 0.0
	for i, k := range m.plant.Machines {
		v := k.Vessel
		flow, slope := k.gives(m.motors[i], w.from.Pressure[v])
		at := func(f Flows) float64 { return flow + slope*(f.Pressure[v]-w.from.Pressure[v]) }
		air := weigh(flow, at(w.mid), at(w.end))
		in += air
		m.worked(i, w.h, air)
	}
	gained := 0.0
	for i := range m.c {
		net := weigh(w.fromIn[i]-w.from.Out[i], w.midIn[i]-w.mid.Out[i], w.endIn[i]-w.end.Out[i])
		c.Out -= net
		gained += (w.end.Pressure[i] - w.from.Pressure[i]) / m.c[i]
		c.Vessels[i][0] = min(c.Vessels[i][0], w.mid.Pressure[i], w.end.Pressure[i])
		c.Vessels[i][1] = max(c.Vessels[i][1], w.mid.Pressure[i], w.end.Pressure[i])
	}
	c.In += in
	c.Out += in
	c.Gained += gained
	c.Lowest, c.Highest = c.Vessels[0][0], c.Vessels[0][1]
	for k, who := range s.Who {
		t := &c.Tools[who]
		t.Ran += w.h
		q := parabola{w.from.Tools[k], w.mid.Tools[k], w.end.Tools[k]}
		if short := w.h * q.below(s.Least[k]); short > 0 {
			t.Short += short
			if m.told.Short != nil {
				m.told.Short(m.set, who, short)
			}
		}
	}
	if m.told.Trace {
		c.Trace = append(c.Trace, m.moment())
	}
}

// moment is where the run stands.
func (m *marcher) moment() Moment {
	p := slices.Clone(m.at.Pressure)
	return Moment{At: m.now, Pressure: p[0], Set: m.set, Loaded: m.loaded(), Vessels: p}
}

// finish closes the books.
func (m *marcher) finish() {
	m.course.End = m.at.Pressure[0]
	m.close()
	if m.told.Trace {
		m.course.Trace = append(m.course.Trace, m.moment())
	}
}
