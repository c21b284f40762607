package find_test

import (
	"context"
	"math"
	"sync"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// TestMemory: what is kept from one reading to the next changes no answer, whoever
// asks at the same time.
func TestMemory(t *testing.T) {
	ctx := context.Background()
	j := *shop(t, "ailing").Job()
	j.Records = j.Records[:len(j.Records)-1]
	before := study.Of(&j, catalog.Builtin())
	raw := []byte(`{"id": "record.new", "when": "2026-02-03T09:40:00-06:00", "kind": "reading", "about": ["outlet.far-bench"],
		"reading": {"pressure_kPa_g": 682.581, "receiver_kPa_g": 723.949, "running": [{"tool": "tool.spray-gun", "outlet": "outlet.prep"}]}}`)
	var m find.Memory
	var all sync.WaitGroup
	for range 3 {
		all.Go(func() {
			if _, err := m.Weigh(ctx, before, unit.US, ""); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	after, err := before.After(&job.Add{What: "record", Thing: raw})
	if err != nil {
		t.Fatal(err)
	}
	kept, err := m.Weigh(ctx, after, unit.US, "")
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := new(find.Memory).Weigh(ctx, after, unit.US, "")
	if err != nil {
		t.Fatal(err)
	}
	a, b := kept.Answer, fresh.Answer
	if a.Read != len(kept.Taken) || a.Read != b.Read || a.Verdict != b.Verdict || len(a.Causes) != len(b.Causes) {
		t.Fatalf("%d readings: %s\nfresh %d: %s", a.Read, a.Verdict, b.Read, b.Verdict)
	}
	for i := range a.Causes {
		if x, y := a.Causes[i], b.Causes[i]; x.Words != y.Words || math.Abs(x.Chance-y.Chance) > 1e-3 {
			t.Errorf("%.4f %s\nfresh %.4f %s", x.Chance, x.Words, y.Chance, y.Words)
		}
	}
	stop, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := new(find.Memory).Weigh(stop, after, unit.US, ""); err == nil {
		t.Error("nobody waits any more, and it answers")
	}
}
