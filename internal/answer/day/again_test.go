package day_test

import (
	"context"
	"math"
	"testing"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// What a day took out of the store is found again by solving the network along the
// day's course, not from the tables that drove it: three points of each piece, Simpson's
// rule. The pieces are short: a table's rows lie less than a bar apart.
func TestNetworkSolvedAgain(t *testing.T) {
	j, m := shopOf(t, "boat-shop")
	const hours = 2
	a, err := day.Of(context.Background(), j, m, day.Ask{Seed: 3, Time: hours * 3600, Trace: true})
	if err != nil {
		t.Fatal(err)
	}
	solver := m.NewSolver()
	taken := func(running []job.InUse, p unit.GaugePressure) float64 {
		held := map[job.ID]unit.GaugePressure{}
		for _, s := range m.Sources() {
			held[s.ID] = p
		}
		r, err := solver.Solve(context.Background(), model.Case{Running: running, Held: held, Supply: model.CutIn, Idle: true})
		if err != nil || !r.Solved {
			t.Fatalf("no answer at %v: %v", p, err)
		}
		out := 0.0
		for _, s := range r.Sources {
			out += float64(air.Mass(s.Out - s.In))
		}
		atm := m.Atmosphere()
		leak := float64(air.Mass(a.Leak)) * float64(p+unit.GaugePressure(atm)) / float64(m.Compressors()[0].CutIn+unit.GaugePressure(atm))
		return out + leak
	}
	sum := 0.0
	for i, s := range a.Course[:len(a.Course)-1] {
		next := a.Course[i+1]
		dt := float64(next.At - s.At)
		mid := (s.Pressure + next.Pressure) / 2
		sum += dt / 6 * (taken(s.Running, s.Pressure) + 4*taken(s.Running, mid) + taken(s.Running, next.Pressure))
	}
	told := float64(air.Mass(a.Taken)) * hours * 3600
	if math.Abs(sum-told) > 1e-6*told {
		t.Errorf("took %.6g kg, solved again %.6g kg", told, sum)
	}
}
