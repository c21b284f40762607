package find

import (
	"context"
	"math/rand/v2"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// BenchmarkReading is one more reading taken into account, with the causes
// ranked anew and the next reading proposed.
func BenchmarkReading(b *testing.B) {
	for _, e := range example.All() {
		raw, _ := example.Read(e.Name)
		j, _ := job.Parse(raw)
		j.Records = nil
		ctx := context.Background()
		f, err := Blank(ctx, study.Of(j, catalog.Builtin()), unit.Metric)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(e.Name, func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 1))
			for b.Loop() {
				if len(f.read) == mostReadings {
					f.forget()
				}
				real := newTruth(f.rig, rng.Uint64(), []fault{f.draw(rng).fault})
				r, ok := real.take(f.couldRead()[rng.IntN(8)][0])
				if !ok {
					continue
				}
				if err := f.Add(ctx, r); err != nil {
					b.Fatal(err)
				}
				if _, err := f.Answer(ctx); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(f.rig.links)), "elements")
		})
	}
}
