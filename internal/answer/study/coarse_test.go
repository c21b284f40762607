package study_test

import (
	"context"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// BenchmarkCoarse is what stands for enough air right after an edit, while the other is
// worked out: a tool is used more or less, and a few days are worked through anew.
func BenchmarkCoarse(b *testing.B) {
	raw, _ := example.Read("boat-shop")
	j, bad := job.Parse(raw)
	if j == nil {
		b.Fatal(bad)
	}
	var err error
	ctx := context.Background()
	s := study.Of(j, catalog.Builtin())
	if _, err := s.Few(ctx); err != nil {
		b.Fatal(err)
	}
	edits := []job.Edit{
		&job.Change{ID: "tool.da-sander", Key: "share", Value: []byte("0.31")},
		&job.Change{ID: "tool.da-sander", Key: "share", Value: []byte("0.3")},
	}
	for i := 0; b.Loop(); i++ {
		if s, err = s.After(edits[i%2]); err != nil {
			b.Fatal(err)
		}
		if _, err := s.Few(ctx); err != nil {
			b.Fatal(err)
		}
	}
}
