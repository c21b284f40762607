package example_test

import (
	"context"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// What is planted in the body shop beside what its drawing shows: the readings of
// the job are those of the shop with these.
const (
	cloggedKPa = 350  // the filter's loss at its rated flow, against 7 clean
	discOffK   = 1500 // the gate valve, its disc off the stem, against 0.3 open
)

// faulty is the body shop as it really is.
func faulty(t *testing.T) *job.Job {
	t.Helper()
	j := load(t, "ailing")
	for i := range j.Net.Points {
		switch p := &j.Net.Points[i]; p.ID {
		case "point.filter":
			p.Part.Wear, p.Part.Loaded = "loaded", new(unit.PressureDiff(cloggedKPa*1e3))
		case "point.far-valve":
			p.Part.K = new(unit.Ratio(discOffK))
		}
	}
	return j
}

// predict is what a gauge would show by the model, Pa g.
func predict(t *testing.T, m *model.Model, at job.ID, r *job.Reading) unit.GaugePressure {
	t.Helper()
	res, err := m.NewSolver().Solve(context.Background(), model.Case{
		Running: r.Running, Held: map[job.ID]unit.GaugePressure{"point.receiver": *r.Receiver},
	})
	if err != nil || !res.Solved {
		t.Fatalf("no answer: %v %v", err, res)
	}
	if p, ok := m.AtOutlet(res, at); ok {
		return p
	}
	p, ok := m.AtPoint(res, at, "")
	if !ok {
		t.Fatalf("no pressure at %s", at)
	}
	return p
}

// TestReadingsAreThoseOfTheFaults recomputes each reading from the shop with its
// faults; the gauge has marks of 1 psi. Against the shop as drawn a static reading
// shows nothing, and behind what is planted a flowing one lacks at least 3 psi.
func TestReadingsAreThoseOfTheFaults(t *testing.T) {
	j := load(t, "ailing")
	ill, _ := model.Build(faulty(t), catalog.Builtin())
	drawn, _ := model.Build(j, catalog.Builtin())
	static, flowing := 0, 0
	for _, rec := range j.Records {
		r := rec.Reading
		if r == nil {
			continue
		}
		got := float64(*r.Pressure) / psi
		if want := math.Round(float64(predict(t, ill, rec.About[0], r)) / psi); math.Abs(got-want) > 0.01 {
			t.Errorf("%s: read %.2f psi, the faults make it %.0f", rec.ID, got, want)
		}
		lacks := float64(predict(t, drawn, rec.About[0], r))/psi - got
		switch {
		case len(r.Running) == 0:
			static++
			if math.Abs(lacks) > 0.5 {
				t.Errorf("%s: nothing flows and %.1f psi are missing", rec.ID, lacks)
			}
		default:
			flowing++
			if lacks < 3 {
				t.Errorf("%s: only %.1f psi are missing", rec.ID, lacks)
			}
		}
	}
	if static < 3 || flowing < 6 {
		t.Errorf("%d static readings, %d flowing", static, flowing)
	}
}

// TestComplaint: as drawn the far bench has its pressure either way; as it is, the
// sander runs by itself and not while someone blows off a part.
func TestComplaint(t *testing.T) {
	for _, c := range []struct {
		name  string
		j     *job.Job
		set   job.ID
		short bool
	}{
		{"drawn, alone", load(t, "ailing"), "set.alone", false},
		{"drawn, with the blow gun", load(t, "ailing"), "set.complaint", false},
		{"as it is, alone", faulty(t), "set.alone", false},
		{"as it is, with the blow gun", faulty(t), "set.complaint", true},
	} {
		got := in(t, solve(t, c.j), c.set).CutIn.Tools[0]
		if got.Tool != "tool.sander" || (got.Margin < 0) != c.short {
			t.Errorf("%s: %s has %.1f psi, its least is %.1f", c.name, got.Tool, float64(got.Pressure)/psi, float64(got.Least)/psi)
		}
	}
}

// TestFaultsOnTheDrawing: a plug that only looks as if it fits, and plastic pipe
// that is not fit for air.
func TestFaultsOnTheDrawing(t *testing.T) {
	j, shelf := load(t, "ailing"), catalog.Builtin()
	ix := job.NewIndex(j)
	if answer, _ := shelf.Mates(ix.Outlet("outlet.far-bench").Hose.Socket, ix.Tool("tool.sander").Plug); answer != "looks-like" {
		t.Errorf("socket and plug of the sander: %s", answer)
	}
	plastic := 0
	for i := range j.Net.Runs {
		if s, ok := shelf.Stock(j.Net.Runs[i].Stock); ok && s.FitForAir == "no" {
			plastic++
		}
	}
	if plastic == 0 {
		t.Error("no plastic pipe")
	}
	for _, p := range j.Net.Points {
		if p.State != "existing" {
			t.Errorf("%s is %q, all of it stands", p.ID, p.State)
		}
	}
}
