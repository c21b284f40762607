package model_test

import (
	"math"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// cornered is a line of a stock from the receiver to an end, with two right
// angles in its path, 4 m long in all.
func cornered(stock, size string) *job.Job {
	j := shoptest.Line(1, 0.01)
	j.Net.Points[2].At = &geom.Point{3, 0, 1.5}
	run := &j.Net.Runs[1]
	run.Stock, run.Size, run.Length = stock, size, nil
	run.Path = []geom.Point{{1, 0, 2}, {3, 0, 2}}
	return j
}

func elementOf(t *testing.T, j *job.Job, id job.ID, leg string) model.Element {
	t.Helper()
	m, _ := model.Build(j, catalog.Builtin())
	for _, e := range m.Elements() {
		if e.ID == id && e.Leg == leg {
			return e
		}
	}
	t.Fatalf("no element %s %q", id, leg)
	return model.Element{}
}

// Corners by hand from the rows of testdata/ref/piping/fittings_k.csv.
func TestCorners(t *testing.T) {
	ft := func(bore float64) float64 { f, _ := catalog.Builtin().FT(unit.Length(bore)); return f }
	tests := []struct {
		name, stock, size, source string
		k                         func(bore float64) float64
	}{
		{"threaded", "steel-sch40", "3/4", "elbow90 threaded 3/4: K 1.7", func(float64) float64 { return 2 * 1.7 }},
		{"soldered", "copper-l", "3/4", "elbow90 standard: Le/D 30 on fT", func(b float64) float64 { return 2 * 30 * ft(b) }},
		// Swept at 5 outside diameters, 20/16 mm: r/D 6.25, bends 17 at 6 and 24 at 8,
		// and two ends narrowed to 0.7 of the bore are no part of a swept corner.
		{"swept", "pe-al-pe-metric", "20", "pipe bend 90, r/D 6 and 8", func(b float64) float64 { return 2 * (17 + 7*0.125) * ft(b) }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := elementOf(t, cornered(tt.stock, tt.size), "line.main", "")
			// From (1,0,0.5) up to z = 2, along 2 m, down to (3,0,1.5): 1.5 + 2 + 0.5 m.
			if math.Abs(float64(e.Length)-4) > 1e-9 {
				t.Errorf("length %v, want 4 m", e.Length)
			}
			want := tt.k(float64(e.Bore))
			// The insert joint at the end is another matter: see TestInserts.
			if tt.stock == "pe-al-pe-metric" {
				beta := 0.7
				want += oneEnd(beta) / math.Pow(beta, 4)
			}
			if math.Abs(e.K-want) > 1e-9 {
				t.Errorf("K %v, want %v (%s)", e.K, want, tt.source)
			}
		})
	}
}

// oneEnd is half of contraction and enlargement, 0.5 (1 - β²) and (1 - β²)², on
// the narrow bore (fittings_k: sudden contraction, sudden enlargement).
func oneEnd(beta float64) float64 {
	x := 1 - beta*beta
	return (0.5*x + x*x) / 2
}

// An elbow for composite line: 30 fT on the bore inside it, 0.7 of the line's,
// and its two narrowed ends.
func TestInserts(t *testing.T) {
	j := shoptest.Line(2, 0.01)
	j.Net.Points = append(j.Net.Points, job.Point{ID: "point.elbow", Part: job.Part{Kind: "elbow-90"}})
	j.Net.Runs[1].Stock, j.Net.Runs[1].Size = "pe-al-pe-metric", "20"
	j.Net.Runs[1].To = job.End{Point: "point.elbow", Port: "in"}
	shoptest.Join(&j.Net, "line.on", "point.elbow", "point.end", [2]string{"out", "in"}, "20", 2, "main")
	j.Net.Runs[2].Stock = "pe-al-pe-metric"
	e := elementOf(t, j, "point.elbow", "")
	bore := 0.016 * 0.7
	if math.Abs(float64(e.Bore)-bore) > 1e-12 {
		t.Errorf("bore %v, want %v", e.Bore, bore)
	}
	ft, _ := catalog.Builtin().FT(unit.Length(bore))
	if want := 30*ft + 2*oneEnd(0.7); math.Abs(e.K-want) > 1e-9 {
		t.Errorf("K %v, want %v", e.K, want)
	}
}

// A tee with all ports in use: straight through its two run legs have the
// published 20 fT, from run to branch 60 fT (fittings_k: tee run, tee branch).
func TestTeeLegs(t *testing.T) {
	j := shoptest.Ring(3)
	for i := range j.Net.Runs { // one bore everywhere, so that the legs add on it
		j.Net.Runs[i].Size = "3/4"
	}
	a := elementOf(t, j, "point.tee-2", "run-1")
	b := elementOf(t, j, "point.tee-2", "run-2")
	c := elementOf(t, j, "point.tee-2", "branch")
	ft, _ := catalog.Builtin().FT(a.Bore)
	if math.Abs(a.K+b.K-20*ft) > 1e-9 || math.Abs(a.K+c.K-60*ft) > 1e-9 {
		t.Errorf("through %v, branch %v; want %v, %v", a.K+b.K, a.K+c.K, 20*ft, 60*ft)
	}
}

// 1 m³/h and the like: what stands on plates, in free air (rows of
// testdata/ref/air/reference_flow.csv hold package air; here the job's default).
func TestPlatesAreReadByTheirReference(t *testing.T) {
	for _, tt := range []struct {
		name, own, site string
		want            float64
	}{
		{"as stated", "normal", "iso1217", 0.01 * (101325.0 / 273.15) / (100000.0 / 293.15)},
		{"site's default", "", "normal", 0.01 * (101325.0 / 273.15) / (100000.0 / 293.15)},
		{"free air", "", "", 0.01},
	} {
		t.Run(tt.name, func(t *testing.T) {
			j := shoptest.Line(10, 0)
			j.Tools[0].Flow = &job.Flow{Value: 0.01, Reference: tt.own}
			j.Site.FlowAt = tt.site
			m, _ := model.Build(j, catalog.Builtin())
			if got := float64(m.Tools()[0].FreeAir); math.Abs(got-tt.want) > 1e-12 {
				t.Errorf("%v m³/s, want %v", got, tt.want)
			}
		})
	}
}

// 500 L from 600 to 800 kPa in 100 s: 0.5·200000/(287.055·293.15)/100 kg/s, at
// 20 °C just 0.01 m³/s of free air. It overrides the plate.
func TestPumpUpOverridesThePlate(t *testing.T) {
	j := shoptest.Bench()
	j.Net.Points[0].Part.Compressor.PumpUp = &job.PumpUp{Volume: 0.5, From: 600e3, To: 800e3, Time: 100}
	m, _ := model.Build(j, catalog.Builtin())
	if got := float64(m.Compressors()[0].FreeAir); math.Abs(got-0.01) > 1e-12 {
		t.Errorf("%v m³/s, want 0.01", got)
	}
}

// A job that states little says what was assumed for it.
func TestAssumptionsAreTold(t *testing.T) {
	j := shoptest.Bench()
	j.Net.Points[0].Part.Compressor = nil
	j.Net.Points[0].Part.Item = "piston-2.2"
	j.Net.Points[1].Part.Volume = nil
	m, _ := model.Build(j, catalog.Builtin())
	keys := map[string]bool{}
	for _, a := range m.Assumptions() {
		keys[string(a.ID)+" "+a.Key] = true
		if a.Words == "" || a.Ref.Source == "" || a.Low > a.Value || a.High < a.Value {
			t.Errorf("%+v", a)
		}
	}
	for _, want := range []string{
		"point.compressor cut_in_Pa_g", "point.compressor cut_out_Pa_g", "point.compressor free_air_m3_s", "point.receiver volume_m3",
		"tool.wrench free_air_m3_s", "tool.wrench least_Pa_g", "hose.c roughness_m", "hose.c end_bore", "part.c-coupler C_m3_s_Pa", "line.riser roughness_m",
	} {
		if !keys[want] {
			t.Errorf("%s is not told", want)
		}
	}
	if v := m.Receivers()[0].Volume; math.Abs(float64(v)-0.1) > 1e-9 {
		t.Errorf("volume %v, want 0.1 m³ (row piston-2.2)", v)
	}
}

// Readings: the receiver's pressure is what it is said to be.
func TestHeld(t *testing.T) {
	held := map[job.ID]unit.GaugePressure{"point.receiver": 650e3}
	m, r := solve(t, shoptest.Bench(), model.Case{Held: held, Idle: true})
	if p, _ := m.AtPoint(r, "point.receiver", ""); math.Abs(float64(p)-650e3) > 1e-6 || r.Sources[0].In != 0 {
		t.Errorf("receiver at %v, gets %v", p, r.Sources[0].In)
	}
	// Nothing runs: beyond the regulator its set pressure, elsewhere the receiver's.
	if p, _ := m.AtOutlet(r, "outlet.a"); math.Abs(float64(p)-650e3) > 0.01 {
		t.Errorf("outlet a at rest at %v", p)
	}
	if p, _ := m.AtOutlet(r, "outlet.b"); math.Abs(float64(p)-620e3) > 0.01 {
		t.Errorf("outlet b at rest at %v, set 620 kPa", p)
	}
}
