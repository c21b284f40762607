package size

import (
	"fmt"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// BenchmarkPick is the pick alone, of a job laid out: rings of drops and the built-in
// shops, each with its number of elements.
func BenchmarkPick(b *testing.B) {
	jobs := map[string]*job.Job{}
	for _, name := range []string{"boat-shop", "ring-main"} {
		raw, _ := example.Read(name)
		jobs[name], _ = job.Parse(raw)
	}
	for _, drops := range []int{6, 40} {
		jobs[fmt.Sprintf("%d drops", drops)] = shoptest.Drawn(drops)
	}
	for name, j := range jobs {
		w, err := newWork(b.Context(), study.Of(j, catalog.Builtin()), Wish{})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("%s, %d elements", name, len(w.model.Elements())), func(b *testing.B) {
			for b.Loop() {
				a, err := w.frame().problem.Solve(b.Context())
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(100*(a.Price-a.Bound)/a.Price, "%gap")
			}
		})
	}
}

// BenchmarkPropose is all of it: layout, picks until flows that follow pressure hold, days.
func BenchmarkPropose(b *testing.B) {
	for _, name := range []string{"boat-shop", "ring-main"} {
		b.Run(name, func(b *testing.B) {
			raw, _ := example.Read(name)
			j, _ := job.Parse(raw)
			for b.Loop() {
				p, err := Propose(b.Context(), study.Of(j, catalog.Builtin()), Wish{}, nil)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(100*p[0].Gap(), "%gap")
			}
		})
	}
}
