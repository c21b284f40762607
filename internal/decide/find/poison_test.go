package find

import (
	"context"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// givesUp is a context that ends after it was looked at so many times.
type givesUp struct {
	context.Context
	looks int
}

func (p *givesUp) Err() error {
	if p.looks--; p.looks < 0 {
		return context.Canceled
	}
	return nil
}

func quiet(t *testing.T) *Finder {
	t.Helper()
	raw, _ := example.Read("ailing")
	j, _ := job.Parse(raw)
	j.Records = nil
	f, err := Blank(context.Background(), study.Of(j, catalog.Builtin()), unit.US)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestMomentOutlivesWhoGivesUp: a moment whose solution nobody waited for is solved
// anew, and not taken for one that the network cannot answer.
func TestMomentOutlivesWhoGivesUp(t *testing.T) {
	f := quiet(t)
	p := f.rig.middle() - 1e4 // not solved yet
	for _, set := range f.usual {
		if _, err := f.rig.at(&givesUp{context.Background(), 0}, set, p); err == nil {
			t.Fatalf("%v: nobody waits, and it answers", set)
		}
		mo, err := f.rig.at(context.Background(), set, p)
		if err != nil {
			t.Fatal(err)
		}
		if mo.sound == nil {
			t.Errorf("%v: no answer after somebody gave up", set)
		}
	}
}

// TestLacksOutliveWhoGivesUp: what tools lack is of the complaint that is asked about,
// wherever somebody stopped waiting for another.
func TestLacksOutliveWhoGivesUp(t *testing.T) {
	f, ctx := quiet(t), context.Background()
	one, other := f.usual[0], f.usual[len(f.usual)-1]
	f.heed(Understood{Running: one})
	if err := f.listen(ctx); err != nil {
		t.Fatal(err)
	}
	var want []float64
	for i := range f.singles {
		want = append(want, f.singles[i].lack)
	}
	stopped := 0
	for looks := 0; ; looks += 1 + looks/3 {
		f.heed(Understood{Running: other})
		if err := f.listen(&givesUp{ctx, looks}); err == nil {
			break
		}
		stopped++
		f.heed(Understood{Running: one})
		if err := f.listen(ctx); err != nil {
			t.Fatal(err)
		}
		for i, lack := range want {
			if d := f.singles[i].lack - lack; d > 1 || d < -1 {
				t.Fatalf("after %d looks %s lacks %.0f Pa, before %.0f", looks, f.causes[f.singles[i].causes[0]].id, f.singles[i].lack, lack)
			}
		}
	}
	if stopped < 3 {
		t.Errorf("given up only %d times", stopped)
	}
}
