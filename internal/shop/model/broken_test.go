package model_test

import (
	"context"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"

	"pgregory.net/rapid"
)

// damage changes a job in a way that no validation has seen.
func damage(t *rapid.T, j *job.Job) {
	odd := rapid.SampledFrom([]float64{0, -1, 1e-12, 1e12, 1e300}).Draw(t, "odd")
	pt := &j.Net.Points[rapid.IntRange(0, len(j.Net.Points)-1).Draw(t, "point")]
	run := &j.Net.Runs[rapid.IntRange(0, len(j.Net.Runs)-1).Draw(t, "run")]
	out := &j.Outlets[rapid.IntRange(0, len(j.Outlets)-1).Draw(t, "outlet")]
	tool := &j.Tools[rapid.IntRange(0, len(j.Tools)-1).Draw(t, "tool")]
	kinds := catalog.Builtin().IDs(catalog.Kinds)
	switch rapid.IntRange(0, 12).Draw(t, "damage") {
	case 0:
		pt.Part.Kind = rapid.SampledFrom(append(kinds, "nonsense")).Draw(t, "kind")
	case 1:
		run.To = run.From
	case 2:
		run.To.Point = "point.nowhere"
	case 3:
		run.Length = shoptest.To(unit.Length(odd))
	case 4:
		run.Stock, run.Size = "nonsense", ""
	case 5:
		out.Point = "point.nowhere"
	case 6:
		out.Hang = append(out.Hang, job.Part{Kind: rapid.SampledFrom(kinds).Draw(t, "hang")})
	case 7:
		out.Hose = nil
	case 8:
		tool.Flow = &job.Flow{Value: odd, Reference: "nonsense"}
	case 9:
		tool.At = shoptest.To(unit.GaugePressure(odd))
		tool.Nozzle = shoptest.To(unit.Length(odd))
	case 10:
		pt.Part.Shut, pt.Part.K = true, shoptest.To(unit.Ratio(odd))
	case 11:
		pt.Part.Compressor = &job.Compressor{CutIn: shoptest.To(unit.GaugePressure(odd)), Displacement: &job.Flow{Value: odd}}
	case 12:
		j.Site.Barometer = shoptest.To(unit.AbsPressure(odd))
	}
}

// Whatever the job: an answer or a reason, no panic and no number that is none.
func TestBrokenJobsNeverPanic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := shoptest.Bench()
		for range rapid.IntRange(1, 4).Draw(t, "times") {
			damage(t, j)
		}
		m, _ := model.Build(j, catalog.Builtin())
		s := m.NewSolver()
		for _, c := range []model.Case{{Running: friday}, {Running: friday, Supply: model.CutOut, Bias: model.Worst}, {}} {
			r, err := s.Solve(context.Background(), c)
			if err != nil {
				t.Fatal(err)
			}
			if !r.Solved && len(r.Findings) == 0 {
				t.Fatal("no answer and no reason")
			}
			for i, p := range r.Pressure {
				if x := float64(p); math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
					t.Fatalf("node %d at %v", i, x)
				}
			}
			for i, f := range r.Flows {
				for _, x := range []float64{float64(f.Mass), float64(f.Loss), float64(f.In), float64(f.Out), float64(f.Mach)} {
					if math.IsNaN(x) || math.IsInf(x, 0) {
						t.Fatalf("element %d: %+v", i, f)
					}
				}
			}
			for i := range m.Pairs() {
				m.Path(r, i)
			}
		}
		m.Resistance()
	})
}
