package day

import "testing"

// Lead and lag: a machine with the higher band carries the shop and one with the lower
// band helps while a demand beyond the first lasts. Against a march of fixed steps of
// a millisecond that switches by its own rules, run-on of the unloaded motor included.
func TestLeadAndLag(t *testing.T) {
	const hour, run, step = 3600.0, 200.0, 1e-3
	plant := Plant{Volume: 0.5, Temperature: 293.15, Machines: []Machine{
		{Flow: 0.010, CutIn: 8e5, CutOut: 9e5, Control: LoadUnload, RunOn: run},
		{Flow: 0.008, CutIn: 7.4e5, CutOut: 8.6e5, Control: StartStop},
	}}
	demands := []float64{0.004, 0.015, 0.002, 0.0125, 0.0005, 0.009}
	sets := make([]Switch, len(demands))
	for i, d := range demands {
		sets[i] = Switch{At: float64(i) * hour / float64(len(demands)), Table: steady(d)}
	}
	c, err := Run(t.Context(), plant, sets, Options{Start: 9e5, End: hour})
	if err != nil {
		t.Fatal(err)
	}
	var loadedFor, idleFor, since [2]float64
	var starts [2]int
	var on, turning [2]bool
	p := 9e5
	for n := range int(hour / step) {
		in := 0.0
		for i, m := range plant.Machines {
			switch {
			case on[i] && p >= m.CutOut:
				on[i], since[i] = false, 0
				turning[i] = m.Control == LoadUnload
			case !on[i] && p <= m.CutIn:
				if !turning[i] {
					starts[i]++
				}
				on[i], turning[i] = true, true
			case !on[i] && turning[i] && since[i] >= run:
				turning[i] = false
			}
			switch {
			case on[i]:
				in += m.Flow
				loadedFor[i] += step
			case turning[i]:
				idleFor[i] += step
				since[i] += step
			}
		}
		d := demands[min(len(demands)-1, int(float64(n)*step*float64(len(demands))/hour))]
		p += step * (in - d) * 287.055 * plant.Temperature / plant.Volume
	}
	for i, w := range c.Machines {
		near(t, "hours under load", w.Loaded, loadedFor[i], 1e-3)
		near(t, "hours unloaded", w.Unloaded, idleFor[i], 1e-3)
		if w.Starts != starts[i] || starts[i] == 0 {
			t.Errorf("machine %d: %d starts, want %d", i, w.Starts, starts[i])
		}
	}
	near(t, "pressure at the end", c.End, p, 1e-3)
	near(t, "balance", c.In-c.Out, c.Gained, 1e-6)
}

// A supply that the shop outruns never comes to its cut-out: it is told so, and its
// machine is under load all the time.
func TestNeverFull(t *testing.T) {
	plant := Plant{Volume: 0.2, Temperature: 293.15, Machines: []Machine{{Flow: 0.005, CutIn: 7e5, CutOut: 9e5, Control: StartStop}}}
	// What flows out grows with the pressure, and is all that comes in at 5 bar.
	table := &Table{Pressure: []float64{1e5, 9e5}, Out: []float64{0.001, 0.009}, Tools: [][]float64{nil, nil}}
	const end = 8 * 3600.0
	c, err := Run(t.Context(), plant, []Switch{{Table: table}}, Options{Start: 7e5, End: end})
	if err != nil {
		t.Fatal(err)
	}
	if c.Full {
		t.Error("said to have come to its cut-out")
	}
	near(t, "rests where in is out", c.End, 5e5, 1e-9)
	near(t, "under load", c.Machines[0].Loaded, end, 1e-12)
	if c.Machines[0].Starts != 1 {
		t.Errorf("%d starts", c.Machines[0].Starts)
	}
}
