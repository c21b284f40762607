package find_test

import (
	"context"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func shop(t testing.TB, name string) *study.Study {
	t.Helper()
	raw, _ := example.Read(name)
	j, problems := job.Parse(raw)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return study.Of(j, catalog.Builtin())
}

// TestAiling: the readings of the body shop show the clogged filter and the gate
// valve with its disc off that were planted there (internal/shop/example).
func TestAiling(t *testing.T) {
	f, err := find.New(context.Background(), shop(t, "ailing"), unit.US)
	if err != nil {
		t.Fatal(err)
	}
	a, err := f.Answer(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	t.Log(a.Verdict)
	for _, c := range a.Causes {
		t.Logf("%.3f %s %.3g (%.3g to %.3g)", c.Chance, c.Words, c.Size, c.Low, c.High)
	}
	if a.Next != nil {
		t.Log(a.Next.Words, a.Next.Tells)
	}
	for i, id := range []job.ID{"point.filter", "point.far-valve"} {
		if len(a.Causes) <= i {
			t.Fatalf("only %d causes", len(a.Causes))
		}
		in := false
		for _, c := range a.Causes[:2] {
			for _, m := range c.Members {
				in = in || m.ID == id
			}
		}
		if !in {
			t.Errorf("%s is not among the first two", id)
		}
	}
}
