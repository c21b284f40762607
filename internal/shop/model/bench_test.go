package model_test

import (
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// sixty is a shop of about sixty elements.
func sixty() *job.Job { return shoptest.Ring(7) }

func BenchmarkBuild60(b *testing.B) { benchBuild(b, sixty()) }

func BenchmarkBuildRing30(b *testing.B) { benchBuild(b, shoptest.Ring(30)) }

// BenchmarkBuildDrawn builds a shop whose lines are drawn instead of stated.
func BenchmarkBuildDrawn(b *testing.B) {
	raw, _ := example.Read("ring-main")
	j, wrong := job.Parse(raw)
	if j == nil {
		b.Fatal(wrong)
	}
	benchBuild(b, j)
}

func benchBuild(b *testing.B, j *job.Job) {
	cat := catalog.Builtin()
	m, _ := model.Build(j, cat)
	b.ReportMetric(float64(len(m.Elements())), "elements")
	b.ReportAllocs()
	for b.Loop() {
		model.Build(j, cat)
	}
}

// BenchmarkSolveOthers60 has other tools running in each answer.
func BenchmarkSolveOthers60(b *testing.B) {
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
