package day

import (
	"math"
	"math/rand/v2"
	"testing"
)

// twoVessels is a shop of two vessels with a line between them, a leak at the first and
// four tools, two at each vessel; the last takes its air at the far one beyond what the
// line brings.
type twoVessels struct{ on []bool }

// line is the isothermal flow through a pipe by the square law, laminar near rest.
func (n twoVessels) line(a, b float64) float64 {
	const k, smooth = 2.2e-8, 1e8 // kg/(s Pa), Pa²
	d := a*a - b*b
	return k * d / math.Sqrt(math.Abs(d)+smooth)
}

func (n twoVessels) out(p [2]float64) [2]float64 {
	holes := []float64{1.2e-8, 2.0e-8, 0.9e-8, 2.6e-8}
	q := n.line(p[0], p[1])
	out := [2]float64{q + orifice(0.3e-8, p[0]), -q}
	for i, on := range n.on {
		if on {
			out[i/2] += orifice(holes[i], p[i/2])
		}
	}
	return out
}

func (n twoVessels) tools(p [2]float64) []float64 {
	var at []float64
	for i, on := range n.on {
		if on {
			at = append(at, p[i/2]-20e3)
		}
	}
	return at
}

func (n twoVessels) Held(p []float64) (Flows, error) {
	at := [2]float64(p)
	out := n.out(at)
	return Flows{Pressure: p, Out: out[:], Tools: n.tools(at), Known: true}, nil
}

// Exchanged halves the far vessel's pressure within a halving of the near one's: nothing
// here goes the way that a network is solved.
func (n twoVessels) Exchanged(back, gives []float64) (Flows, error) {
	halve := func(lack func(p float64) float64) float64 {
		low, high := 1e3, 3e6
		for range 45 { // to a tenth of a millipascal
			if mid := (low + high) / 2; lack(mid) > 0 {
				high = mid
			} else {
				low = mid
			}
		}
		return (low + high) / 2
	}
	far := func(near float64) float64 {
		return halve(func(p float64) float64 { return n.out([2]float64{near, p})[1] - gives[1]*(back[1]-p) })
	}
	near := halve(func(p float64) float64 { return n.out([2]float64{p, far(p)})[0] - gives[0]*(back[0]-p) })
	return n.Held([]float64{near, far(near)})
}

// fine integrates the same laws by the fourth order in steps of 1/50 s.
type fine struct {
	plant  Plant
	c, p   [2]float64
	t      float64
	on     bool
	loaded float64
	starts int
}

func (f *fine) step(h float64, n twoVessels) [2]float64 {
	in := 0.0
	if f.on {
		in = f.plant.Machines[0].Flow
	}
	rate := func(p [2]float64) [2]float64 {
		out := n.out(p)
		return [2]float64{f.c[0] * (in - out[0]), -f.c[1] * out[1]}
	}
	along := func(k [2]float64, s float64) [2]float64 { return [2]float64{f.p[0] + s*k[0], f.p[1] + s*k[1]} }
	a := rate(f.p)
	b := rate(along(a, h/2))
	c := rate(along(b, h/2))
	d := rate(along(c, h))
	var p [2]float64
	for i := range p {
		p[i] = f.p[i] + h/6*(a[i]+2*b[i]+2*c[i]+d[i])
	}
	return p
}

func (f *fine) to(end float64, n twoVessels) {
	k := f.plant.Machines[0]
	due := func(p [2]float64) bool { return f.on && p[0] >= k.CutOut || !f.on && p[0] <= k.CutIn }
	for f.t < end-1e-12 {
		h := min(0.02, end-f.t)
		p := f.step(h, n)
		for due(p) && h > 1e-9 {
			h /= 2
			p = f.step(h, n)
		}
		if f.on {
			f.loaded += h
		}
		f.t, f.p = f.t+h, p
		if due(p) {
			if f.on = !f.on; f.on {
				f.starts++
			}
		}
	}
}

// An afternoon of two vessels against a fixed-step integration of the same laws.
func TestMarchAgainstFixedStep(t *testing.T) {
	rota := Rota{Actors: []Actor{{Odds: 1, Burst: 60}, {Odds: 0.4, Burst: 100}, {Odds: 1.5, Burst: 30}, {Odds: 0.5, Burst: 150}}}
	const seconds, start, least = 3600.0, 9e5, 7.2e5
	turns := rota.Turns(rand.New(rand.NewPCG(3, 4)), seconds)
	plant := Plant{
		Volume: 0.47, Temperature: 293.15,
		Vessels:  []Vessel{{Volume: 0.27, Start: start}, {Volume: 0.2, Start: start}},
		Machines: []Machine{{Flow: 0.03, CutIn: 7.5e5, CutOut: 9e5, Control: StartStop}},
	}
	sets, nets := make([]Switch, len(turns)), make([]twoVessels, len(turns))
	for i, turn := range turns {
		nets[i] = twoVessels{turn.On}
		sets[i] = Switch{At: turn.At}
		for who, on := range turn.On {
			if on {
				sets[i].Who, sets[i].Least = append(sets[i].Who, who), append(sets[i].Least, least)
			}
		}
	}
	c, err := March(t.Context(), plant, sets, func(set int) Net { return nets[set] }, Options{End: seconds, Tools: 4, Trace: true})
	if err != nil {
		t.Fatal(err)
	}
	f := &fine{plant: plant, p: [2]float64{start, start}}
	for i, v := range plant.Vessels {
		f.c[i] = 287.055 * plant.Temperature / v.Volume
	}
	apart, at := 0.0, 0
	short := make([]float64, 4)
	for _, m := range c.Trace {
		for {
			end := m.At
			if at+1 < len(turns) {
				end = min(end, turns[at+1].At)
			}
			shortOf(f, end, nets[at], least, short)
			if at+1 == len(turns) || turns[at+1].At >= m.At-1e-12 {
				break
			}
			at++
		}
		near(t, "pressure", m.Vessels[0], f.p[0], 1e-4)
		near(t, "far pressure", m.Vessels[1], f.p[1], 1e-4)
		apart = max(apart, math.Abs(m.Vessels[0]-m.Vessels[1]))
	}
	if apart < 1e5 {
		t.Errorf("the vessels never stood more than %v apart: nothing was coupled", apart)
	}
	near(t, "time under load", c.Machines[0].Loaded, f.loaded, 1e-3)
	if c.Machines[0].Starts != f.starts || f.starts < 5 {
		t.Errorf("%d starts, want %d", c.Machines[0].Starts, f.starts)
	}
	near(t, "gained", c.In-c.Out, c.Gained, 1e-6)
	shorts := 0
	for k, s := range c.Tools {
		if math.Abs(s.Short-short[k]) > 1e-3*s.Ran {
			t.Errorf("tool %d short for %v s, want %v of %v", k, s.Short, short[k], s.Ran)
		}
		if short[k] > 0 {
			shorts++
		}
	}
	if shorts == 0 {
		t.Error("no tool went short: nothing was compared")
	}
}

// shortOf marches on and counts by 1/50 s how long each tool has less than it needs.
func shortOf(f *fine, end float64, n twoVessels, least float64, short []float64) {
	for f.t < end-1e-12 {
		from := f.t
		f.to(min(end, f.t+0.02), n)
		i := 0
		for who, on := range n.on {
			if !on {
				continue
			}
			if n.tools(f.p)[i] < least {
				short[who] += f.t - from
			}
			i++
		}
	}
}

// A coarse run of the same laws is within what many days tell: each tool's share short
// within half a point of its time, duty within half a hundredth.
func TestCoarseMarch(t *testing.T) {
	rota := Rota{Actors: []Actor{{Odds: 1, Burst: 60}, {Odds: 0.4, Burst: 100}, {Odds: 1.5, Burst: 30}, {Odds: 0.5, Burst: 150}}}
	const seconds, start, least = 2 * 3600.0, 9e5, 7.2e5
	turns := rota.Turns(rand.New(rand.NewPCG(5, 6)), seconds)
	plant := Plant{
		Volume: 0.47, Temperature: 293.15,
		Vessels:  []Vessel{{Volume: 0.27, Start: start}, {Volume: 0.2, Start: start}},
		Machines: []Machine{{Flow: 0.03, CutIn: 7.5e5, CutOut: 9e5, Control: LoadUnload, RunOn: 60}},
	}
	sets, nets := make([]Switch, len(turns)), make([]twoVessels, len(turns))
	for i, turn := range turns {
		nets[i], sets[i] = twoVessels{turn.On}, Switch{At: turn.At}
		for who, on := range turn.On {
			if on {
				sets[i].Who, sets[i].Least = append(sets[i].Who, who), append(sets[i].Least, least)
			}
		}
	}
	run := func(coarse bool) *Course {
		c, err := March(t.Context(), plant, sets, func(set int) Net { return nets[set] }, Options{End: seconds, Tools: 4, Coarse: coarse})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "gained", c.In-c.Out, c.Gained, 1e-6)
		return c
	}
	fine, coarse := run(false), run(true)
	near(t, "time under load", coarse.Machines[0].Loaded, fine.Machines[0].Loaded, 5e-3)
	for k, s := range fine.Tools {
		near(t, "ran", coarse.Tools[k].Ran, s.Ran, 1e-9)
		if math.Abs(coarse.Tools[k].Short-s.Short) > 5e-3*s.Ran {
			t.Errorf("tool %d short for %v of %v s, finely %v", k, coarse.Tools[k].Short, s.Ran, s.Short)
		}
	}
}
