package day

import (
	"math"

	"dropleg/engine/air"
)

const gasConstant = air.GasConstant

// account books what a step brought: the pressure runs along the piece from where
// the store stands to p.
func (r *runner) account(s Switch, w piece, span int, step, p float64) {
	c := r.course
	gained := (p - r.p) / r.c
	over := w.above(step)
	in := 0.0
	for i, m := range r.plant.Machines {
		flow, slope := m.gives(r.motors[i], r.p)
		air := flow*step + slope*over
		in += air
		r.worked(i, step, air)
	}
	out, slope := s.Table.out(span, r.p)
	c.In += in
	c.Out += out*step + slope*over
	c.Gained += gained
	for k, who := range s.Who {
		t := &c.Tools[who]
		t.Ran += step
		if short := r.short(s, w, span, k, step, p); short > 0 {
			t.Short += short
			if r.told.Short != nil {
				r.told.Short(r.set, who, short)
			}
		}
	}
	c.Lowest, c.Highest = min(c.Lowest, p), max(c.Highest, p)
	if r.told.Trace {
		c.Trace = append(c.Trace, r.moment())
	}
}

// short is how long of a step a tool has less than it needs. Its pressure rises
// with the store's, so it is either before or after one moment.
func (r *runner) short(s Switch, w piece, span, k int, step, end float64) float64 {
	need := s.Least[k]
	first, slope := s.Table.tool(k, span, r.p)
	last := first + slope*(end-r.p)
	switch {
	case first >= need && last >= need:
		return 0
	case first < need && last < need:
		return step
	}
	at := min(step, w.until(r.p+(need-first)/slope))
	if math.IsNaN(at) {
		at = step
	}
	if first < need {
		return at
	}
	return step - at
}

// finish closes the books.
func (r *runner) finish() {
	c := r.course
	c.End = r.p
	r.close()
	if r.told.Trace {
		c.Trace = append(c.Trace, r.moment())
	}
}
