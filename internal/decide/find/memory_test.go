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

// patience is a context that ends after it was looked at so many times.
type patience struct {
	context.Context
	looks int
}

func (p *patience) Err() error {
	if p.looks--; p.looks < 0 {
		return context.Canceled
	}
	return nil
}

// TestMemoryOutlivesWhoGivesUp: a question that nobody waits for any more changes no later answer.
func TestMemoryOutlivesWhoGivesUp(t *testing.T) {
	ctx := context.Background()
	s := study.Of(shop(t, "ailing").Job(), catalog.Builtin())
	var m find.Memory
	first, err := m.Weigh(ctx, s, unit.US, "")
	if err != nil || len(first.Uses) < 2 {
		t.Fatal(err, first)
	}
	said := func(u find.Use) string { return string(u.Tool) + "@" + string(u.Outlet) }
	one, other := said(first.Uses[0]), said(first.Uses[len(first.Uses)-1])
	want, err := m.Weigh(ctx, s, unit.US, one)
	if err != nil {
		t.Fatal(err)
	}
	for _, looks := range []int{0, 1, 5, 40} {
		if _, err := m.Weigh(&patience{ctx, looks}, s, unit.US, other); err == nil {
			t.Fatalf("after %d looks nobody waits, and it answers", looks)
		}
		got, err := m.Weigh(ctx, s, unit.US, one)
		if err != nil {
			t.Fatal(err)
		}
		alike(t, looks, got.Answer, want.Answer)
	}
	fresh, err := new(find.Memory).Weigh(ctx, s, unit.US, other)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := m.Weigh(ctx, s, unit.US, other); err != nil {
		t.Error(err)
	} else {
		alike(t, -1, got.Answer, fresh.Answer)
	}
}

func alike(t *testing.T, looks int, a, b *find.Answer) {
	t.Helper()
	if a.Supply != b.Supply || len(a.Causes) != len(b.Causes) {
		t.Fatalf("%d looks: %q with %d causes, before %q with %d", looks, a.Supply, len(a.Causes), b.Supply, len(b.Causes))
	}
	for i := range a.Causes {
		if x, y := a.Causes[i], b.Causes[i]; math.Abs(x.Chance-y.Chance) > 1e-3 {
			t.Errorf("%d looks: %.4f %s, before %.4f %s", looks, x.Chance, x.Words, y.Chance, y.Words)
		}
	}
}
