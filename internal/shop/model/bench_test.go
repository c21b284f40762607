package model_test

import (
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// sixty is a shop of about sixty elements.
func sixty() *job.Job { return shoptest.Ring(7) }

func BenchmarkBuild60(b *testing.B) {
	j, cat := sixty(), catalog.Builtin()
	m, _ := model.Build(j, cat)
	b.ReportMetric(float64(len(m.Elements())), "elements")
	for b.Loop() {
		model.Build(j, cat)
	}
}

func BenchmarkSolveWarm60(b *testing.B) {
	m, _ := model.Build(sixty(), catalog.Builtin())
	s := m.NewSolver()
	sets := [][]job.InUse{
		{{Tool: "tool.1", Outlet: "outlet.1"}, {Tool: "tool.4", Outlet: "outlet.4"}},
		{{Tool: "tool.1", Outlet: "outlet.1"}, {Tool: "tool.5", Outlet: "outlet.5"}, {Tool: "tool.7", Outlet: "outlet.7"}},
	}
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Solve(b.Context(), model.Case{Running: sets[i%2]}); err != nil {
			b.Fatal(err)
		}
		i++
	}
}
