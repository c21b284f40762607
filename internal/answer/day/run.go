package day

import (
	"context"
	"math"
)

// Switch is a moment at which another set of tools runs.
type Switch struct {
	At    float64 // s from the start
	Table *Table  // of the set from then on
	// Deep gives a table that reaches further down, for when the store falls beneath
	// the first row; nil: there is none.
	Deep func() (*Table, error)
	// Least is the pressure that each tool of the table needs, Pa abs.
	Least []float64
	// Who names the tools of the table by their place in Course.Tools.
	Who []int
}

// Worked is what a machine did.
type Worked struct {
	Loaded   float64 // s
	Unloaded float64 // s
	Starts   int     // of the motor
	Air      float64 // kg delivered
}

// Served is what a tool got.
type Served struct {
	Ran   float64 // s
	Short float64 // s of them below what it needs
	// Weighed is, where only moments were looked at, the time that they stand for; Short
	// is then of it. 0: all of Ran was looked at.
	Weighed float64
}

// seen is the time that Short is of.
func (s Served) seen() float64 {
	if s.Weighed > 0 {
		return s.Weighed
	}
	return s.Ran
}

// Moment is a point of the course: between two of them the pressure is monotone.
type Moment struct {
	At       float64
	Pressure float64 // Pa abs
	Set      int     // index of the Switch in force from here
	Loaded   []bool  // by machine, from here on
	// Vessels are the pressures of all stores, the first among them, Pa abs; nil: there is one.
	Vessels []float64
}

// moment is where a run stands.
func (r *runner) moment() Moment {
	return Moment{At: r.now, Pressure: r.p, Set: r.set, Loaded: r.loaded()}
}

// Course is what came of a run.
type Course struct {
	Machines []Worked
	Tools    []Served
	In, Out  float64 // kg
	Gained   float64 // kg in store, end less start: In − Out but for rounding
	Lowest   float64 // Pa abs, of the first store
	Highest  float64
	Vessels  [][2]float64 // lowest and highest of each store, Pa abs; nil: there is one
	End      float64      // Pa abs
	Motors   []bool       // running at the end, by machine
	Full     bool         // some machine came to its cut-out
	Trace    []Moment
}

// Options of a run.
type Options struct {
	Start float64 // Pa abs
	End   float64 // s
	Tools int     // length of Course.Tools
	Trace bool
	// Coarse is for days of several stores that are only counted.
	Coarse bool
	// Short hears for how long a tool went short, and in which switch; nil: nobody asks.
	Short func(set, tool int, seconds float64)
}

// Run carries a plant through the switches, which are in order of time; the first
// must be at 0. The error is that of the plant or of ctx.
func Run(ctx context.Context, p Plant, sets []Switch, o Options) (*Course, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	r := newRunner(p, o)
	for i, s := range sets {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		end := o.End
		if i+1 < len(sets) {
			end = min(end, sets[i+1].At)
		}
		r.set = i
		if err := r.hold(s, end); err != nil {
			return nil, err
		}
	}
	r.finish()
	return r.course, nil
}

type runner struct {
	board
	c      float64 // R T/V
	now, p float64
	set    int
	told   Options
}

func newRunner(p Plant, o Options) *runner {
	return &runner{
		board: newBoard(p, o, func(int) float64 { return o.Start }),
		c:     gasConstant * p.Temperature / p.Volume, p: o.Start, told: o,
	}
}

// hold runs one set of tools until end.
func (r *runner) hold(s Switch, end float64) error {
	for r.now < end {
		if s.Deep != nil && r.p <= s.Table.Pressure[0] {
			deep, err := s.Deep()
			if err != nil {
				return err
			}
			s.Table, s.Deep = deep, nil
		}
		w, span := r.piece(s.Table)
		to, at := r.bound(s.Table, w, span)
		step := min(end-r.now, to, r.nextStop())
		p := at
		if step < to {
			p = w.after(step)
		}
		r.account(s, w, span, step, p)
		r.now, r.p = r.now+step, p
		if end-r.now < 1e-9 { // less is a rounding of the clock
			r.now = end
		}
		r.control(func(int) float64 { return r.p }, 0)
	}
	return nil
}

// piece is how the store gains from where it stands.
func (r *runner) piece(t *Table) (w piece, span int) {
	in, inSlope := 0.0, 0.0
	for i, m := range r.plant.Machines {
		f, k := m.gives(r.motors[i], r.p)
		in, inSlope = in+f, inSlope+k
	}
	// The way it goes decides which of two spans counts at a row.
	span = t.span(r.p, true)
	out, k := t.out(span, r.p)
	if in < out {
		span = t.span(r.p, false)
		out, k = t.out(span, r.p)
	}
	return piece{c: r.c, p0: r.p, n0: in - out, k: inSlope - k}, span
}

// bound is when, and at what pressure, something changes: the end of a table's
// span, or a threshold of a machine.
func (r *runner) bound(t *Table, w piece, span int) (time, pressure float64) {
	rising := w.n0 > 0
	pressure = math.Inf(1)
	if !rising {
		pressure = math.Inf(-1)
	}
	try := func(p float64) {
		if rising && p > r.p && p < pressure || !rising && p < r.p && p > pressure {
			pressure = p
		}
	}
	if span+1 < len(t.Pressure) {
		try(t.Pressure[span+1])
	}
	if span >= 0 && span < len(t.Pressure) {
		try(t.Pressure[span])
	}
	for i, m := range r.plant.Machines {
		if rising && r.motors[i] == loaded || !rising && r.motors[i] != loaded {
			try(m.CutIn)
			try(m.CutOut)
		} else if m.Control == Speed {
			try(m.CutIn) // where its delivery bends
		}
	}
	if math.IsInf(pressure, 0) {
		return math.Inf(1), r.p
	}
	return w.until(pressure), pressure
}
