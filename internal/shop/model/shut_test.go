package model_test

import (
	"slices"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// edited is Bench with one point's part changed.
func edited(id job.ID, change func(*job.Part)) *job.Job {
	j := shoptest.Bench()
	for i := range j.Net.Points {
		if j.Net.Points[i].ID == id {
			change(&j.Net.Points[i].Part)
		}
	}
	return j
}

func codes(found []job.Finding) []string {
	var out []string
	for _, f := range found {
		out = append(out, f.Code)
	}
	return out
}

func TestShutValveLeavesWhatIsBehindUndetermined(t *testing.T) {
	j := edited("point.valve", func(p *job.Part) { p.Shut = true })
	m, r := solve(t, j, model.Case{Running: friday})
	for i := range r.Tools {
		if r.Tools[i].Known || r.Tools[i].Flow != 0 {
			t.Errorf("%s: known %v, flow %v behind a shut valve", m.Pairs()[i].Words, r.Tools[i].Known, r.Tools[i].Flow)
		}
	}
	if p, ok := m.AtPoint(r, "point.receiver", ""); !ok || p != 700e3 {
		t.Errorf("receiver at %v (%v), want 700 kPa", p, ok)
	}
	n := 0
	for _, f := range m.Findings() {
		if f.Code == "shut-off" && slices.Contains(f.Where, "point.valve") {
			n++
		}
	}
	if n != len(j.Outlets) {
		t.Errorf("%d of %d outlets are said to be shut off by the valve", n, len(j.Outlets))
	}
	if p := m.Path(r, 0); p != nil {
		t.Errorf("a way through a shut valve: %v", p)
	}
}

func TestSupplies(t *testing.T) {
	second := func(j *job.Job, cutIn, cutOut float64, kind string) {
		n := &j.Net
		n.Points = append(n.Points,
			job.Point{ID: "point.compressor-2", Part: job.Part{Kind: "compressor", Compressor: &job.Compressor{
				FreeAir: &job.Flow{Value: 0.01, Reference: "iso1217"}, CutIn: shoptest.To(unit.GaugePressure(cutIn)), CutOut: shoptest.To(unit.GaugePressure(cutOut)),
			}}},
			job.Point{ID: "point.receiver-2", Part: job.Part{Kind: "receiver", Volume: shoptest.To(unit.Volume(0.2))}},
			job.Point{ID: "point.join-2", Part: job.Part{Kind: kind, Set: shoptest.To(unit.GaugePressure(3e3))}},
		)
		shoptest.Join(n, "line.s2", "point.compressor-2", "point.receiver-2", [2]string{"out", "in"}, "3/4", 1, "link")
		shoptest.Join(n, "line.s3", "point.receiver-2", "point.join-2", [2]string{"out", "in"}, "3/4", 1, "link")
		shoptest.Join(n, "line.s4", "point.join-2", "point.c", [2]string{"out", "in"}, "3/4", 1, "link")
		for i := range n.Runs { // the far drop is fed from the other end instead
			if n.Runs[i].ID == "line.drop-c" {
				n.Runs[i].To = job.End{Point: "point.c", Port: "in"}
			}
		}
	}
	tests := []struct {
		name  string
		job   func() *job.Job
		want  []model.Source // ID, CutIn, CutOut
		codes []string
	}{
		{"one", shoptest.Bench, []model.Source{{ID: "point.receiver", CutIn: 700e3, CutOut: 900e3}}, nil},
		{"two open to each other share the band", func() *job.Job {
			j := shoptest.Bench()
			second(j, 650e3, 850e3, "union")
			return j
		}, []model.Source{{ID: "point.receiver", CutIn: 650e3, CutOut: 900e3}, {ID: "point.receiver-2", CutIn: 650e3, CutOut: 900e3}}, nil},
		{"two parted by a check valve do not", func() *job.Job {
			j := shoptest.Bench()
			second(j, 650e3, 850e3, "check-valve")
			return j
		}, []model.Source{{ID: "point.receiver", CutIn: 700e3, CutOut: 900e3}, {ID: "point.receiver-2", CutIn: 650e3, CutOut: 850e3}}, nil},
		{"no receiver", func() *job.Job {
			return edited("point.receiver", func(p *job.Part) { *p = job.Part{Kind: "union"} })
		}, []model.Source{{ID: "point.compressor", CutIn: 700e3, CutOut: 900e3}}, []string{"no-receiver"}},
		{"no compressor", func() *job.Job {
			return edited("point.compressor", func(p *job.Part) { *p = job.Part{Kind: "cap"} })
		}, nil, []string{"no-source"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m, found := model.Build(tt.job(), catalog.Builtin())
			if len(m.Sources()) != len(tt.want) {
				t.Fatalf("sources %+v", m.Sources())
			}
			for i, s := range m.Sources() {
				if w := tt.want[i]; s.ID != w.ID || s.CutIn != w.CutIn || s.CutOut != w.CutOut {
					t.Errorf("source %+v, want %+v", s, w)
				}
			}
			if !slices.Equal(codes(found), tt.codes) {
				t.Errorf("findings %v, want %v", codes(found), tt.codes)
			}
			r, err := m.NewSolver().Solve(t.Context(), model.Case{Running: friday})
			if err != nil || !r.Solved {
				t.Errorf("no answer: %v %+v", err, r.Findings)
			}
		})
	}
}

func TestNoPressureCanCarryIt(t *testing.T) {
	j := shoptest.Line(30, 5) // 5 m³/s through 3/4 in
	_, r := solve(t, j, model.Case{Running: []job.InUse{{Tool: "tool.t", Outlet: "outlet.a"}}})
	if r.Solved || len(r.Findings) != 1 || r.Findings[0].Code != "no-answer" || !slices.Contains(r.Findings[0].Where, "tool.t") {
		t.Errorf("solved %v, findings %+v", r.Solved, r.Findings)
	}
}

func TestUnknownThingsAreToldAndLeftOut(t *testing.T) {
	j := shoptest.Bench()
	j.Net.Points[2].Part.Kind = "gizmo"
	j.Net.Runs[2].Stock = "cardboard"
	j.Outlets[0].Hose.Item = "garden"
	j.Outlets[1].Hose.Socket = "bayonet"
	j.Outlets[2].Tools = append(j.Outlets[2].Tools, "tool.nobody")
	m, found := model.Build(j, catalog.Builtin())
	for _, want := range []string{"unknown-kind", "unknown-line", "unknown-hose", "unknown-coupler", "unknown-tool"} {
		if !slices.Contains(codes(found), want) {
			t.Errorf("%s is not among %v", want, codes(found))
		}
	}
	if _, err := m.NewSolver().Solve(t.Context(), model.Case{Running: friday}); err != nil {
		t.Error(err)
	}
}

func TestExamplesAreValid(t *testing.T) {
	for _, j := range []*job.Job{shoptest.Line(10, 0.01), shoptest.Bench(), shoptest.Ring(4)} {
		for _, f := range job.Validate(j, catalog.Builtin()) {
			if f.Severity == job.Fault {
				t.Errorf("%s: %s %s: read %s, want %s", j.Title, f.Code, f.Path, f.Read, f.Want)
			}
		}
	}
}
