package model

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"

	"pgregory.net/rapid"
)

// wholeSolver solves the network with its blind branches.
func wholeSolver(t testing.TB, m *Model, c Case) *Solver {
	t.Helper()
	s := m.NewSolver()
	on, _ := m.chosen(c, &Result{})
	v := &live{on: on, at: make([]int, len(m.nodes))}
	if err := v.compile(m, make([]bool, len(m.links))); err != nil {
		t.Fatal(err)
	}
	s.known = []*live{v}
	return s
}

// sameAsWhole holds an answer of the live part against that of the whole network.
func sameAsWhole(t testing.TB, m *Model, c Case) {
	t.Helper()
	want, err := wholeSolver(t, m, c).Solve(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	got, err := m.NewSolver().Solve(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	if got.Solved != want.Solved || !slices.EqualFunc(got.Findings, want.Findings, func(a, b job.Finding) bool {
		return a.Title == b.Title && slices.Equal(a.Where, b.Where)
	}) {
		t.Fatalf("solved %v %v, whole: %v %v", got.Solved, got.Findings, want.Solved, want.Findings)
	}
	if !want.Solved {
		return
	}
	const pascal, share = 0.01, 1e-8 // of a pressure; of the largest flow
	top := 0.0
	for i := range want.Flows {
		top = math.Max(top, math.Abs(float64(want.Flows[i].Mass)))
	}
	for i := range want.Pressure {
		if got.Known[i] != want.Known[i] || math.Abs(float64(got.Pressure[i]-want.Pressure[i])) > pascal {
			t.Errorf("%s: %v %v, whole: %v %v", m.nodes[i].Key, got.Known[i], got.Pressure[i], want.Known[i], want.Pressure[i])
		}
	}
	for i := range want.Flows {
		a, b := got.Flows[i], want.Flows[i]
		if a.Known != b.Known || a.Choked != b.Choked || math.Abs(float64(a.Mass-b.Mass)) > share*math.Max(top, 1e-3) || math.Abs(float64(a.Loss-b.Loss)) > 2*pascal {
			t.Errorf("%s %s: %+v, whole: %+v", m.links[i].ID, m.links[i].Leg, a, b)
		}
	}
	for i := range want.Tools {
		a, b := got.Tools[i], want.Tools[i]
		if a.Known != b.Known || a.Running != b.Running || math.Abs(float64(a.Pressure-b.Pressure)) > pascal || math.Abs(float64(a.Flow-b.Flow)) > share*1e-2 {
			t.Errorf("%s: %+v, whole: %+v", m.pairs[i].Words, a, b)
		}
	}
	for i := range want.Sources {
		a, b := got.Sources[i], want.Sources[i]
		if math.Abs(float64(a.Out-b.Out)) > share || math.Abs(float64(a.In-b.In)) > share {
			t.Errorf("%s: %+v, whole: %+v", m.sources[i].ID, a, b)
		}
	}
}

// cases are each pair alone, none, and every third together, at both ends of the band.
func cases(m *Model) []Case {
	sets := [][]job.InUse{nil}
	var some []job.InUse
	for i, p := range m.pairs {
		use := job.InUse{Tool: p.Tool, Outlet: p.Outlet}
		sets = append(sets, []job.InUse{use})
		if i%3 == 0 {
			some = append(some, use)
		}
	}
	var out []Case
	for _, running := range append(sets, some) {
		out = append(out, Case{Running: running, Supply: CutIn}, Case{Running: running, Supply: CutOut})
	}
	return out
}

func TestLiveIsWholeInExamples(t *testing.T) {
	for _, e := range example.All() {
		raw, _ := example.Read(e.Name)
		j, wrong := job.Parse(raw)
		if j == nil {
			t.Fatalf("%s: %v", e.Name, wrong)
		}
		m, _ := Build(j, catalog.Builtin())
		for _, c := range cases(m) {
			sameAsWhole(t, m, c)
		}
	}
}

// TestLiveIsWholeAnywhere draws rings with valves, regulators and check valves,
// either way round, in the ring and at the outlets.
func TestLiveIsWholeAnywhere(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := shoptest.Ring(rapid.IntRange(1, 6).Draw(rt, "drops"))
		part := func(label string) job.Part {
			p := job.Part{Kind: rapid.SampledFrom([]string{"ball-valve", "regulator", "check-valve", "union"}).Draw(rt, label)}
			switch p.Kind {
			case "ball-valve":
				p.Shut = rapid.Bool().Draw(rt, "shut")
			case "regulator":
				p.Set = shoptest.To(unit.GaugePressure(rapid.Float64Range(100e3, 900e3).Draw(rt, "set")))
			case "check-valve":
				p.Set = shoptest.To(unit.GaugePressure(rapid.Float64Range(0, 50e3).Draw(rt, "cracking")))
			}
			return p
		}
		for i := range j.Outlets {
			if rapid.Bool().Draw(rt, "hangs") {
				j.Outlets[i].Hang = append([]job.Part{part("hung")}, j.Outlets[i].Hang...)
			}
			if rapid.IntRange(0, 3).Draw(rt, "constant") == 0 {
				j.Tools[i].Constant = true
			}
		}
		for n := range rapid.IntRange(0, 3).Draw(rt, "in lines") {
			cut := rapid.IntRange(1, len(j.Net.Runs)-1).Draw(rt, "line")
			id := job.ID(fmt.Sprintf("point.put-in-%d", n))
			j.Net.Points = append(j.Net.Points, job.Point{ID: id, Part: part("put in")})
			rest := j.Net.Runs[cut]
			rest.ID = job.ID(fmt.Sprintf("line.rest-%d", n))
			near, far := "in", "out"
			if rapid.Bool().Draw(rt, "turned") {
				near, far = far, near
			}
			rest.From = job.End{Point: id, Port: far}
			j.Net.Runs[cut].To = job.End{Point: id, Port: near}
			j.Net.Runs = append(j.Net.Runs, rest)
		}
		m, _ := Build(j, catalog.Builtin())
		all := cases(m)
		sameAsWhole(t, m, all[rapid.IntRange(0, len(all)-1).Draw(rt, "case")])
	})
}
