package model_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"

	"pgregory.net/rapid"
)

// tolerance is well above the network's own (1e-9 of flow) and below a hundredth of a pascal.
const tolerance = 0.01

// drawRing draws a ring and some of its tools, each at its own outlet.
func drawRing(t *rapid.T) (*job.Job, []job.InUse) {
	drops := rapid.IntRange(2, 7).Draw(t, "drops")
	j := shoptest.Ring(drops)
	var running []job.InUse
	for i := 1; i <= drops; i++ {
		if rapid.Bool().Draw(t, "runs") {
			running = append(running, job.InUse{Tool: job.ID(fmt.Sprintf("tool.%d", i)), Outlet: job.ID(fmt.Sprintf("outlet.%d", i))})
		}
	}
	return j, running
}

func answer(t *rapid.T, j *job.Job, c model.Case) (*model.Model, *model.Result) {
	m, _ := model.Build(j, catalog.Builtin())
	r, err := m.NewSolver().Solve(context.Background(), c)
	if err != nil || !r.Solved {
		t.Fatalf("no answer: %v %+v", err, r)
	}
	return m, r
}

func TestMoreToolsNeverRaiseAPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		if len(running) == 0 {
			return
		}
		_, fewer := answer(t, j, model.Case{Running: running[:len(running)-1]})
		_, more := answer(t, j, model.Case{Running: running})
		for i := range more.Pressure {
			if more.Pressure[i] > fewer.Pressure[i]+tolerance {
				t.Fatalf("node %d rises from %v to %v Pa", i, fewer.Pressure[i], more.Pressure[i])
			}
		}
	})
}

func TestCutOutIsNeverBelowCutIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		_, in := answer(t, j, model.Case{Running: running, Supply: model.CutIn})
		_, out := answer(t, j, model.Case{Running: running, Supply: model.CutOut})
		for i := range in.Tools {
			if out.Tools[i].Pressure < in.Tools[i].Pressure-tolerance {
				t.Fatalf("pair %d: %v Pa g at cut-out, %v at cut-in", i, out.Tools[i].Pressure, in.Tools[i].Pressure)
			}
		}
	})
}

// With steady flows the ring's inlet stands where it stood, so the second way
// from it can only raise what lies beyond. (With tools that follow pressure a
// second way may cost a place near the inlet a little: they take more.)
func TestASecondWayNeverLowersAPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		for i := range j.Tools {
			j.Tools[i].Constant = true
		}
		last := len(j.Net.Runs) - 1
		closing := j.Net.Runs[last]
		j.Net.Points = append(j.Net.Points, job.Point{ID: "point.ring-valve", Part: job.Part{Kind: "ball-valve", Shut: true}})
		beyond := closing
		beyond.ID, beyond.From = "line.ring-beyond", job.End{Point: "point.ring-valve", Port: "out"}
		j.Net.Runs[last].To = job.End{Point: "point.ring-valve", Port: "in"}
		j.Net.Runs = append(j.Net.Runs, beyond)
		_, one := answer(t, j, model.Case{Running: running})
		open := *j
		open.Net.Points = append([]job.Point(nil), j.Net.Points...)
		open.Net.Points[len(open.Net.Points)-1].Part.Shut = false
		_, two := answer(t, &open, model.Case{Running: running})
		for i := range one.Tools {
			if two.Tools[i].Pressure < one.Tools[i].Pressure-tolerance {
				t.Fatalf("pair %d falls from %v to %v Pa g", i, one.Tools[i].Pressure, two.Tools[i].Pressure)
			}
		}
	})
}

func TestLossesAlongTheWayAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		m, r := answer(t, j, model.Case{Running: running})
		for _, use := range running {
			p, _ := m.PairOf(use)
			sum, before := unit.PressureDiff(0), m.Sources()[0].Node
			for _, s := range m.Path(r, p.Index) {
				if s.From != before || s.Loss < 0 {
					t.Fatalf("%s: step from node %d with loss %v after node %d", p.Words, s.From, s.Loss, before)
				}
				before = s.To
				sum += s.Loss
			}
			want := r.Sources[0].Pressure - r.Tools[p.Index].Pressure
			if before != p.Node || math.Abs(float64(sum)-float64(want)) > tolerance {
				t.Fatalf("%s: losses add to %v, source less tool is %v", p.Words, sum, want)
			}
		}
	})
}

// With steady flows each figure acts one way everywhere. (Tools that follow
// pressure take more through a better hose, at their neighbours' cost.)
func TestBiasesLieAroundTheLikely(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		for i := range j.Tools {
			j.Tools[i].Constant = true
		}
		_, likely := answer(t, j, model.Case{Running: running})
		_, best := answer(t, j, model.Case{Running: running, Bias: model.Best})
		_, worst := answer(t, j, model.Case{Running: running, Bias: model.Worst})
		for i := range likely.Tools {
			a, b, c := worst.Tools[i].Pressure, likely.Tools[i].Pressure, best.Tools[i].Pressure
			if a > b+tolerance || b > c+tolerance {
				t.Fatalf("pair %d: worst %v, likely %v, best %v Pa g", i, a, b, c)
			}
		}
	})
}

// What leaves the source is what the tools take.
func TestAirBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		_, r := answer(t, j, model.Case{Running: running})
		sum := unit.FreeAir(0)
		for _, s := range r.Tools {
			sum += s.Flow
		}
		if math.Abs(float64(r.Sources[0].Out-sum)) > 1e-8*0.02 {
			t.Fatalf("source gives %v, tools take %v", r.Sources[0].Out, sum)
		}
		if math.Abs(float64(r.Sources[0].In)-0.020) > 1e-8*0.02 {
			t.Fatalf("receiver gets %v of the compressor's 0.020", r.Sources[0].In)
		}
	})
}

// A solver that has answered other cases gives what a fresh one gives.
func TestWarmIsCold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j, running := drawRing(t)
		m, _ := model.Build(j, catalog.Builtin())
		warm := m.NewSolver()
		for range rapid.IntRange(1, 4).Draw(t, "before") {
			n := rapid.IntRange(0, len(running)).Draw(t, "first")
			if _, err := warm.Solve(context.Background(), model.Case{Running: running[:n], Supply: model.CutIn}); err != nil {
				t.Fatal(err)
			}
		}
		a, _ := warm.Solve(context.Background(), model.Case{Running: running})
		b, _ := m.NewSolver().Solve(context.Background(), model.Case{Running: running})
		for i := range a.Pressure {
			if math.Abs(float64(a.Pressure[i]-b.Pressure[i])) > tolerance {
				t.Fatalf("node %d: warm %v, cold %v", i, a.Pressure[i], b.Pressure[i])
			}
		}
	})
}
