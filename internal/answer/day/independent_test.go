package day

import (
	"math"
	"math/rand/v2"
	"testing"
)

// orifice is the outflow of a sharp hole by the law of ISO 6358: choked below b, on
// the ellipse above.
func orifice(c, p float64) float64 {
	const b, atmosphere = 0.5, 101325.0
	r := atmosphere / p
	if r >= 1 {
		return 0
	}
	flow := c * 1.185 * p
	if r > b {
		flow *= math.Sqrt(1 - math.Pow((r-b)/(1-b), 2))
	}
	return flow
}

// An afternoon of four tools, against a fixed-step integration of the laws themselves,
// fourth order, steps of 1/50 s, its switches found by halving the step.
func TestAgainstFixedStep(t *testing.T) {
	holes := []float64{1.2e-8, 2.5e-8, 0.9e-8, 1.8e-8}
	rota := Rota{Actors: []Actor{{Odds: 1, Burst: 60}, {Odds: 0.4, Burst: 100}, {Odds: 1.5, Burst: 30}, {Odds: 0.25, Burst: 200}}}
	const seconds, start = 3600.0, 9e5
	turns := rota.Turns(rand.New(rand.NewPCG(3, 4)), seconds)
	plant := Plant{Volume: 0.27, Temperature: 293.15, Machines: []Machine{
		{Flow: 0.006, CutIn: 7e5, CutOut: 9e5, Control: StartStop},
		{Flow: 0.004, CutIn: 6.5e5, CutOut: 8.5e5, Control: StartStop},
	}}
	law := func(on []bool) func(p float64) float64 {
		return func(p float64) float64 {
			sum := orifice(0.4e-8, p) // leaks
			for i, runs := range on {
				if runs {
					sum += orifice(holes[i], p)
				}
			}
			return sum
		}
	}
	sets := make([]Switch, len(turns))
	for i, turn := range turns {
		out := law(turn.On)
		sets[i] = Switch{At: turn.At, Table: Tabulate(func(p float64) (float64, []float64, bool) { return out(p), nil, true }, 101325, 1e6)}
	}
	c, err := Run(t.Context(), plant, sets, Options{Start: start, End: seconds, Trace: true})
	if err != nil {
		t.Fatal(err)
	}
	march := newMarch(plant, start)
	at := 0
	for _, m := range c.Trace {
		for at < len(turns) && turns[at].At < m.At-1e-12 {
			end := m.At
			if at+1 < len(turns) {
				end = min(end, turns[at+1].At)
			}
			march.to(end, law(turns[at].On))
			if end == m.At {
				break
			}
			at++
		}
		near(t, "pressure", m.Pressure, march.p, 1e-4)
	}
	for i := range plant.Machines {
		near(t, "time under load", c.Machines[i].Loaded, march.loaded[i], 1e-3)
		if c.Machines[i].Starts != march.starts[i] {
			t.Errorf("machine %d: %d starts, want %d", i, c.Machines[i].Starts, march.starts[i])
		}
	}
	near(t, "air out", c.Out, march.out, 1e-4)
}

// march is the independent integration.
type march struct {
	plant     Plant
	t, p, out float64
	on        []bool
	loaded    []float64
	starts    []int
	c         float64
}

func newMarch(p Plant, start float64) *march {
	n := len(p.Machines)
	return &march{plant: p, p: start, on: make([]bool, n), loaded: make([]float64, n), starts: make([]int, n), c: 287.055 * p.Temperature / p.Volume}
}

func (m *march) step(h float64, out func(float64) float64) float64 {
	in := 0.0
	for i, on := range m.on {
		if on {
			in += m.plant.Machines[i].Flow
		}
	}
	f := func(p float64) float64 { return m.c * (in - out(p)) }
	a := f(m.p)
	b := f(m.p + h/2*a)
	c := f(m.p + h/2*b)
	d := f(m.p + h*c)
	return m.p + h/6*(a+2*b+2*c+d)
}

// due is the first machine that would have switched at p; −1 for none.
func (m *march) due(p float64) int {
	for i, k := range m.plant.Machines {
		if m.on[i] && p >= k.CutOut || !m.on[i] && p <= k.CutIn {
			return i
		}
	}
	return -1
}

func (m *march) to(end float64, out func(float64) float64) {
	for m.t < end-1e-12 {
		h := min(0.02, end-m.t)
		p := m.step(h, out)
		for m.due(p) >= 0 && h > 1e-9 {
			h /= 2
			p = m.step(h, out)
		}
		for i, on := range m.on {
			if on {
				m.loaded[i] += h
			}
		}
		m.out += h * (out(m.p) + out(p)) / 2
		m.t, m.p = m.t+h, p
		if i := m.due(p); i >= 0 {
			m.on[i] = !m.on[i]
			if m.on[i] {
				m.starts[i]++
			}
		}
	}
}
