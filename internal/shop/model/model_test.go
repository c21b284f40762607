package model_test

import (
	"context"
	"math"
	"testing"

	"dropleg/engine/air"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// solve builds and answers in one go.
func solve(t *testing.T, j *job.Job, c model.Case) (*model.Model, *model.Result) {
	t.Helper()
	m, _ := model.Build(j, catalog.Builtin())
	r, err := m.NewSolver().Solve(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	return m, r
}

// lineDrop is the outlet pressure of a line by the equation alone: p1² - p2² =
// (m/A)² R T (f L/D + K + 2 ln(p1/p2)), f by Colebrook, solved by iteration.
// Constants: R = 287.055 J/(kg K), Sutherland 1.716e-5 Pa s at 273.15 K, S =
// 110.4 K, the figures of testdata/ref/bench/README.md.
func lineDrop(p1, m, length, bore, rough, k, z float64) float64 {
	const r, t = 287.055, 293.15
	mu := 1.716e-5 * math.Pow(t/273.15, 1.5) * (273.15 + 110.4) / (t + 110.4)
	area := math.Pi / 4 * bore * bore
	re := 4 * m / (math.Pi * bore * mu)
	f := 0.02
	for range 100 {
		f = math.Pow(-2*math.Log10(rough/bore/3.7+2.51/(re*math.Sqrt(f))), -2)
	}
	p2 := p1
	for range 200 {
		p2 = math.Sqrt(p1*p1 - m*m/(area*area)*z*r*t*(f*length/bore+k+2*math.Log(p1/p2)))
	}
	return p2
}

func TestLineByHand(t *testing.T) {
	const length, flow = 30.0, 0.015
	j := shoptest.Line(length, flow)
	m, r := solve(t, j, model.Case{Running: []job.InUse{{Tool: "tool.t", Outlet: "outlet.a"}}})
	if !r.Solved {
		t.Fatalf("no answer: %+v", r.Findings)
	}
	size, _ := catalog.Builtin().Size("copper-l", "3/4")
	stock, _ := catalog.Builtin().Stock("copper-l")
	// 1 m³ of ISO 1217 air is 100000/(287.055·293.15) kg.
	mass := flow * 100000 / (287.055 * 293.15)
	z, err := air.Compressibility(801325, 293.15) // checked against tables in engine/air
	if err != nil {
		t.Fatal(err)
	}
	want := lineDrop(801325, mass, length, float64(size.Bore), stock.Roughness.Value, 0, float64(z))
	got := float64(r.Pressure[m.Pairs()[0].Node])
	if math.Abs(got-want) > 1e-6*(801325-want) {
		t.Errorf("pressure at the tool %.2f Pa, by the equation %.2f Pa", got, want)
	}
	if f := float64(r.Tools[0].Flow); math.Abs(f-flow) > 1e-12 {
		t.Errorf("tool takes %v, want %v", f, flow)
	}
}
