package flow_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

func of(t testing.TB, j *job.Job) *flow.Answer {
	t.Helper()
	m, _ := model.Build(j, catalog.Builtin())
	a, err := flow.Of(context.Background(), j, m, demand.Of(j, m), model.Start{})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestFridayAddsUp(t *testing.T) {
	a := of(t, shoptest.Bench())
	s := a.Sets[0]
	if s.ID != "set.friday" || !s.CutIn.Solved || !s.CutOut.Solved || len(s.CutIn.Tools) != 3 {
		t.Fatalf("%+v", s)
	}
	taken := unit.FreeAir(0)
	for i, tool := range s.CutIn.Tools {
		taken += tool.Flow
		sum := unit.PressureDiff(0)
		for _, step := range tool.Path {
			sum += step.Loss
		}
		want := s.CutIn.Sources[0].Pressure.Minus(tool.Pressure)
		if math.Abs(float64(sum-want)) > 0.01 {
			t.Errorf("%s: losses add to %v, source less tool is %v Pa", tool.Tool, sum, want)
		}
		if s.CutOut.Tools[i].Pressure < tool.Pressure-0.01 {
			t.Errorf("%s: %v at cut-out, %v at cut-in", tool.Tool, s.CutOut.Tools[i].Pressure, tool.Pressure)
		}
		if tool.Margin != tool.Pressure.Minus(tool.Least) {
			t.Errorf("%s: margin %v", tool.Tool, tool.Margin)
		}
		if tool.At < tool.Pressure {
			t.Errorf("%s: outlet at %v under its tool at %v", tool.Tool, tool.At, tool.Pressure)
		}
	}
	if math.Abs(float64(s.Supply.Taken-taken)) > 1e-12 || math.Abs(float64(s.CutIn.Sources[0].Out-taken)) > 1e-9 {
		t.Errorf("taken %v, supply says %v, source gives %v", taken, s.Supply.Taken, s.CutIn.Sources[0].Out)
	}
}

// By hand: 20 L/s delivered, 10 % of it leaks (rule's default), three tools
// take about 15.7: nothing short. At 10 L/s delivered 15.7 + 1 - 10 is short,
// which 0.5 m³ from 900 to 700 kPa covers for 0.5·200000/(287.055·293.15) kg.
func TestSupplyByHand(t *testing.T) {
	j := shoptest.Bench()
	if s := of(t, j).Sets[0].Supply; s.Short != 0 || s.Rides != nil {
		t.Errorf("short %v", s.Short)
	}
	j = shoptest.Bench()
	j.Net.Points[0].Part.Compressor.FreeAir.Value = 0.010
	s := of(t, j).Sets[0].Supply
	short := float64(s.Taken) + 0.001 - 0.010
	kg := 0.5 * 200000 / (287.055 * 293.15)
	want := kg / (short * 100000 / (287.055 * 293.15))
	if math.Abs(float64(s.Short)-short) > 1e-12 || s.Rides == nil || math.Abs(float64(*s.Rides)-want) > 1e-9*want {
		t.Errorf("short %v, rides %v; want %v, %v s", s.Short, s.Rides, short, want)
	}
}

func TestWorstIsTheLeastMargin(t *testing.T) {
	a := of(t, shoptest.Bench())
	least := unit.PressureDiff(math.Inf(1))
	for _, s := range a.Sets {
		for _, tool := range s.CutIn.Tools {
			least = min(least, tool.Margin)
		}
	}
	found := false
	for _, w := range a.Tools {
		if w.Set < 0 {
			t.Errorf("%s runs in no set", w.Tool)
			continue
		}
		found = found || (w.Margin == least && w.Set == a.Worst)
		near := float64(w.Pressure) <= 1.25*float64(w.Least)
		if (w.Range != nil) != near {
			t.Errorf("%s: %v of %v, range %v", w.Tool, w.Pressure, w.Least, w.Range)
		}
		if w.Range != nil && (w.Range.Low > w.Pressure || w.Range.High < w.Pressure || w.Range.Low == w.Range.High) {
			t.Errorf("%s: %v is outside %v", w.Tool, w.Pressure, *w.Range)
		}
	}
	if !found {
		t.Errorf("worst set %d does not hold the least margin %v", a.Worst, least)
	}
}

func TestKeysCarryUnits(t *testing.T) {
	raw, err := json.Marshal(of(t, shoptest.Bench()))
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{`"pressure_Pa_g"`, `"flow_free_air_m3_s"`, `"loss_Pa"`, `"velocity_out_m_s"`, `"atmosphere_Pa_abs"`} {
		if !strings.Contains(string(raw), key) {
			t.Errorf("%s is missing", key)
		}
	}
	again, _ := json.Marshal(of(t, shoptest.Bench()))
	if string(raw) != string(again) {
		t.Error("the same job gave other bytes")
	}
}

func TestCancelled(t *testing.T) {
	j := shoptest.Bench()
	m, _ := model.Build(j, catalog.Builtin())
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := flow.Of(ctx, j, m, demand.Of(j, m), model.Start{}); !errors.Is(err, context.Canceled) {
		t.Errorf("err %v", err)
	}
}

// A job with nothing in it has an answer too.
func TestEmptyJob(t *testing.T) {
	a := of(t, &job.Job{Version: job.Version, Title: "bare room"})
	if a.Worst != -1 || len(a.Sets) != 0 || len(a.Findings) != 1 || a.Findings[0].Code != "no-source" {
		t.Errorf("%+v", a)
	}
}

func BenchmarkFlowRing30(b *testing.B) {
	j := shoptest.Ring(30)
	cat := catalog.Builtin()
	m, _ := model.Build(j, cat)
	d := demand.Of(j, m)
	b.ReportMetric(float64(len(m.Elements())), "elements")
	b.ReportMetric(float64(len(d.Sets)), "sets")
	for b.Loop() {
		if _, err := flow.Of(b.Context(), j, m, d, model.Start{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDemand30(b *testing.B) {
	j := shoptest.Ring(30)
	m, _ := model.Build(j, catalog.Builtin())
	for b.Loop() {
		demand.Of(j, m)
	}
}
