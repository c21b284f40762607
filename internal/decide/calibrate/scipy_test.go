package calibrate

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// yard is a shop of one long line, as a job.
func yard(t testing.TB) *study.Study {
	t.Helper()
	raw, err := os.ReadFile("testdata/long-line.json")
	if err != nil {
		t.Fatal(err)
	}
	j, problems := job.Parse(raw)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return study.Of(j, catalog.Builtin())
}

// planted is where the figures of the yard stand, in deviations: the line before the receiver,
// the long one, the filter, the leak.
var planted = []float64{0, 1.5, -0.6, 0.4}

// readings are those of the yard as it was planted, in the middle and at the end with each
// tool, each off by what a fine gauge may be; then a fall and a turn of the compressor. rows
// say the same to Python.
func readings(t *testing.T) (Ask, []map[string]any) {
	t.Helper()
	const receiver = 800e3
	a := Ask{Gauge: 200, Timings: []Timing{{Leakage: prove.Leakage{Share: 0.1, Spread: 0.01, Cycles: 3}}}}
	var rows []map[string]any
	for _, r := range []struct {
		tool job.ID
		flow float64
	}{{"", 0}, {"tool.small", 0.012}, {"tool.large", 0.024}} {
		for kind, place := range []job.ID{"point.mid", "outlet.end"} {
			rd := find.Reading{Kind: find.Pressure, Place: find.Place{At: place}, Receiver: receiver}
			if r.tool != "" {
				rd.Running = []job.InUse{{Tool: r.tool, Outlet: "outlet.end"}}
			}
			a.Readings = append(a.Readings, rd)
			rows = append(rows, map[string]any{"kind": []string{"mid", "end"}[kind], "at_Pa": receiver + 101325.0, "tool_kg_s": float64(air.Mass(unit.FreeAir(r.flow)))})
		}
	}
	a.Readings = append(a.Readings, find.Reading{Kind: find.Fall, From: 900e3, To: 700e3, Time: 300})
	rows = append(rows, map[string]any{"kind": "fall", "at_Pa": receiver + 101325.0}, map[string]any{"kind": "on-off", "at_Pa": receiver + 101325.0})
	figures, err := figuresOf(t.Context(), yard(t))
	if err != nil {
		t.Fatal(err)
	}
	b, err := newBench(t.Context(), yard(t), figures, a)
	if err != nil {
		t.Fatal(err)
	}
	sights, err := b.look(t.Context(), planted)
	if err != nil {
		t.Fatal(err)
	}
	for i, off := range []float64{80, -60, 30, 90, -110, 40} {
		a.Readings[i].Pressure = unit.GaugePressure(sights[i].mean + off)
	}
	return a, rows
}

// TestAgainstScipy fits the readings of a small net by scipy.optimize.least_squares as well,
// with a model of the line written anew in Python (testdata/least_squares.py).
func TestAgainstScipy(t *testing.T) {
	const python = "/usr/bin/python3" // the one that Debian's packages serve
	if exec.Command(python, "-c", "import scipy.optimize").Run() != nil {
		t.Skip("there is no python3-scipy here")
	}
	s := yard(t)
	figures, err := figuresOf(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	figures = figures[1:] // the line before the receiver shows in no reading
	ask, rows := readings(t)
	b, err := newBench(t.Context(), s, figures, ask)
	if err != nil {
		t.Fatal(err)
	}
	f := &fit{x: make([]float64, 3), free: []int{0, 1, 2}}
	if err := b.settle(t.Context(), f); err != nil {
		t.Fatal(err)
	}
	var shown, centre, spread []float64
	for i := range f.sights {
		shown = append(shown, f.sights[i].shown)
	}
	for i := range figures {
		centre, spread = append(centre, figures[i].centre), append(spread, figures[i].spread)
	}
	m, _ := s.Model(t.Context())
	long, elbow := m.Elements()[figures[0].links[0]], 0.0
	for _, e := range m.Elements() {
		if e.ID == "point.end" {
			elbow = e.K
		}
	}
	in, _ := json.Marshal(map[string]any{
		"bore_m": long.Bore, "rt_J_kg": m.Gas().RT(), "viscosity_Pa_s": m.Gas().Viscosity, "elbow_K": elbow,
		"rated_kg_s": float64(air.Mass(0.03)), "rated_at_Pa": 801325, "atmosphere_Pa": 101325,
		"supply_kg_s": b.store.supply, "mid_Pa": b.store.mid,
		"centre": centre, "spread": spread, "readings": rows, "shown": shown, "covariance": f.cov,
	})
	cmd := exec.Command(python, "testdata/least_squares.py")
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var theirs struct{ X, Deviation []float64 }
	if err := json.Unmarshal(out, &theirs); err != nil {
		t.Fatal(err)
	}
	for i, what := range []string{"roughness", "filter", "leak"} {
		sd := math.Sqrt(f.after[i][i])
		t.Logf("%s: x %.4f ± %.4f, scipy %.4f ± %.4f: %.4g", what, f.x[i], sd, theirs.X[i], theirs.Deviation[i], figures[i].at(f.x[i]))
		// A step below settled ends the search; slopes are taken over a thousandth of a deviation.
		if math.Abs(f.x[i]-theirs.X[i]) > 2*settled || math.Abs(sd/theirs.Deviation[i]-1) > 0.01 {
			t.Errorf("%s differs", what)
		}
	}
}

// TestTold: with a fine gauge and a long line, roughness, filter and leak are all told, and the
// line that no reading passes is not; with a poor gauge the roughness is left where it was.
func TestTold(t *testing.T) {
	ask, _ := readings(t)
	a, err := Of(t.Context(), yard(t), ask, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []bool{false, true, true, true} {
		if f := &a.Figures[i]; f.Told != want {
			t.Errorf("%s %s %v: told %v, want %v; left %.2f", f.What, f.Stock, f.IDs, f.Told, want, f.Left)
		}
	}
	if a.Figures[0].Why != Unseen || a.Figures[0].Value != a.Figures[0].Before {
		t.Errorf("the line that no reading passes: %+v", a.Figures[0])
	}
	if !a.Fits || a.After >= a.Before {
		t.Errorf("misfit %.3g before, %.3g after", a.Before, a.After)
	}
	for i := 1; i < len(planted); i++ {
		figures, _ := figuresOf(t.Context(), yard(t))
		if p, f := figures[i].at(planted[i]), a.Figures[i]; f.What != Leak && (p < f.Low || p > f.High) {
			t.Errorf("%s: planted %.3g, said %.3g to %.3g", f.What, p, f.Low, f.High)
		}
	}
	if a.Change() == nil {
		t.Fatal("no change is proposed")
	}
	after, _, err := a.Change().Apply(yard(t).Job())
	if err != nil {
		t.Fatal(err)
	}
	ix := job.NewIndex(after)
	if w := ix.Run("line.long").Wall; w == nil || math.Abs(float64(*w)/a.Figures[1].Value-1) > 1e-3 {
		t.Errorf("the wall stands at %v, found %g", w, a.Figures[1].Value)
	}
	if p := ix.Point("point.filter").Part.Found; p == nil || math.Abs(float64(*p)/a.Figures[2].Value-1) > 1e-3 {
		t.Errorf("the filter stands at %v, found %g", p, a.Figures[2].Value)
	}
	if l := after.RuleLeak(); !l.Stated || math.Abs(float64(l.Value)/a.Figures[3].Value-1) > 1e-3 {
		t.Errorf("the leak stands at %v", l.Value)
	}
	ask.Gauge = 10e3
	a, err = Of(t.Context(), yard(t), ask, nil)
	if err != nil {
		t.Fatal(err)
	}
	if f := a.Figures[1]; f.Told || f.Low != f.Prior[0] || f.High != f.Prior[1] {
		t.Errorf("with a poor gauge the roughness: %+v", f)
	}
}

// TestNothingToGoBy: no readings is told as such.
func TestNothingToGoBy(t *testing.T) {
	if _, err := Of(t.Context(), yard(t), Ask{}, nil); err != ErrNoReadings {
		t.Errorf("%v", err)
	}
}
