package check

import (
	"context"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// thirty is a ring main with thirty outlets and thirty tools, some of them on
// hoses too thin for them.
func thirty() *job.Job {
	j := shoptest.Ring(30)
	for i := range j.Outlets {
		j.Outlets[i].Hose.Item = "rubber-1/2"
	}
	for i := 0; i < 5; i++ {
		j.Outlets[6*i].Hose.Item, j.Outlets[6*i].Hose.Length = "rubber-1/4", 15
	}
	return j
}

func BenchmarkRun(b *testing.B) {
	s := study.Of(thirty(), catalog.Builtin())
	ctx := context.Background()
	if _, err := s.Flow(ctx); err != nil {
		b.Fatal(err)
	}
	var found []job.Finding
	for b.Loop() {
		var err error
		if found, err = Run(ctx, s, unit.Metric); err != nil {
			b.Fatal(err)
		}
	}
	short := 0
	for _, f := range found {
		if f.Code == shortOfPressure.Code {
			short++
		}
	}
	b.ReportMetric(float64(short), "short")
}
