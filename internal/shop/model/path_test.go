package model_test

import (
	"math"
	"testing"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

var friday = []job.InUse{
	{Tool: "tool.blow", Outlet: "outlet.a"}, {Tool: "tool.sander", Outlet: "outlet.b"}, {Tool: "tool.wrench", Outlet: "outlet.c"},
}

func TestBenchPath(t *testing.T) {
	m, r := solve(t, shoptest.Bench(), model.Case{Running: friday})
	if !r.Solved {
		t.Fatalf("%+v", r.Findings)
	}
	for _, f := range m.Findings() {
		t.Logf("finding %s: %s", f.Code, f.Title)
	}
	for i, p := range m.Pairs() {
		if !r.Tools[i].Running {
			continue
		}
		sum := 0.0
		for _, s := range m.Path(r, i) {
			e := m.Elements()[s.Element]
			t.Logf("%-14s %-60s loss %7.0f Pa  flow %.5f  v %.1f/%.1f m/s", e.ID, e.Words, float64(s.Loss), float64(s.Flow), float64(r.Flows[s.Element].In), float64(r.Flows[s.Element].Out))
			sum += float64(s.Loss)
		}
		want := float64(r.Sources[0].Pressure - r.Tools[i].Pressure)
		t.Logf("%s: %.0f Pa g, outlet %.0f Pa g, takes %.5f", p.Words, float64(r.Tools[i].Pressure), float64(r.Tools[i].Outlet), float64(r.Tools[i].Flow))
		if math.Abs(sum-want) > 1e-6*want {
			t.Errorf("%s: losses along the way add to %v Pa, source less tool is %v Pa", p.Words, sum, want)
		}
	}
}
