package day

import (
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// sum adds the days up.
func (s *shop) sum(a *Answer, courses []*Course) {
	total := float64(a.Time) * float64(a.Days)
	a.Volume = unit.Volume(s.plant.Volume)
	a.Leak = air.FreeAir(unit.MassFlow(s.leak))
	for i, c := range s.m.Compressors() {
		out := Compressor{ID: c.ID, Most: c.StartsMost, DutyMost: c.DutyMost}
		for _, day := range courses {
			w := day.Machines[i]
			out.Duty += unit.Ratio(w.Loaded / total)
			out.Idle += unit.Ratio(w.Unloaded / total)
			out.Starts += float64(w.Starts) / total * 3600
			out.Air += air.FreeAir(unit.MassFlow(w.Air / total))
		}
		a.Compressors = append(a.Compressors, out)
	}
	lowest, highest := math.Inf(1), 0.0
	in, out, gained := 0.0, 0.0, 0.0
	for _, day := range courses {
		lowest, highest = min(lowest, day.Lowest), max(highest, day.Highest)
		in, out, gained = in+day.In, out+day.Out, gained+day.Gained
		a.Full = a.Full || day.Full
	}
	a.Lowest, a.Highest = unit.GaugePressure(lowest-s.atm), unit.GaugePressure(highest-s.atm)
	a.Taken = air.FreeAir(unit.MassFlow(out / total))
	if in > 0 {
		a.Balance = (in - out - gained) / in
	}
	for i, id := range s.tools {
		t := Tool{ID: id}
		short, ran := 0.0, 0.0
		for _, day := range courses {
			short, ran = short+day.Tools[i].Short, ran+day.Tools[i].Ran
		}
		t.Ran = unit.Ratio(ran / total)
		if ran > 0 {
			t.Short = unit.Ratio(short / ran)
		}
		a.Tools = append(a.Tools, t)
	}
}

// sample tells the course of a day.
func (s *shop) sample(a *Answer, c *Course, turns []Turn) {
	for _, m := range c.Trace {
		uses, _ := s.running(turns[m.Set])
		a.Course = append(a.Course, Sample{At: unit.Duration(m.At), Pressure: unit.GaugePressure(m.Pressure - s.atm), Running: uses})
	}
}
