package screen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"runtime"
	"slices"
	"testing"
	"time"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
	"dropleg/internal/show/screen"
)

// The sheet of a window of 1440 by 900 at 4 px to the mm.
const liveWidth, liveHeight = 360, 225

// stepEdit is the nth edit of a hand at a drawn shop: a point is moved, a size set, a
// hose made longer, a tee cut in with a new line from it.
func stepEdit(n, drops int) job.Edit {
	i := 1 + n/4%drops
	id := func(what string) job.ID { return job.ID(fmt.Sprintf("%s-%d", what, i)) }
	set := func(id job.ID, key, value string) job.Edit {
		return &job.Change{ID: id, Key: key, Value: json.RawMessage(value)}
	}
	round := n / 4 / drops
	switch n % 4 {
	case 0:
		return set(id("point.elbow"), "on.up_m", fmt.Sprint(1+0.1*float64(round%3+1)))
	case 1:
		return set(id("line.drop"), "size", []string{`"3/4"`, `"1/2"`}[round%2])
	case 2:
		return set(job.ID(fmt.Sprintf("hose.%d", i)), "length_m", fmt.Sprint(10+n%5))
	}
	near := unit.Length(0.2 / float64(round+1))
	fresh := func(what string) job.ID { return job.ID(fmt.Sprintf("%s-new-%d", what, n)) }
	return job.AllOf("ran a line",
		&job.Split{Run: id("line.ring"), Along: &near, Point: fresh("point.tee"), Rest: fresh("line.ring"), Part: &job.Part{Kind: "tee"}, In: "run-1", Out: "run-2"},
		job.AddOf(&job.Point{ID: fresh("point.cap"), At: &geom.Point{4, 4, 3}, Part: job.Part{Kind: "cap"}}),
		job.AddOf(&job.Run{
			ID: fresh("line.branch"), From: job.End{Point: fresh("point.tee"), Port: "branch"}, To: job.End{Point: fresh("point.cap")},
			Stock: "copper-l", Size: "1/2", Role: "branch",
		}))
}

func BenchmarkLive60(b *testing.B) { benchLive(b, 6) }

func BenchmarkLive1000(b *testing.B) { benchLive(b, 107) }

// benchLive tells the time from an edit to the JSON of what it changed on the page.
// The full answer was asked for some edits before, as by a page that is never idle.
func benchLive(b *testing.B, drops int) {
	ctx := context.Background()
	start := shoptest.Drawn(drops)
	old := screen.On(study.Of(start, catalog.Builtin()), nil)
	ask := screen.Window{View: "plan", Width: liveWidth, Height: liveHeight}
	page, err := old.Page(ctx, ask)
	if err != nil {
		b.Fatal(err)
	}
	var took []time.Duration
	n, size := 0, 0
	var out bytes.Buffer
	for b.Loop() {
		before := time.Now()
		s, err := old.Study().After(stepEdit(n, drops))
		if err != nil {
			b.Fatal(err)
		}
		shop := screen.On(s, nil)
		next, err := shop.Page(ctx, ask)
		if err != nil {
			b.Fatal(err)
		}
		out.Reset()
		live, err := next.Since(page)
		if err != nil {
			b.Fatal(err)
		}
		if err := json.NewEncoder(&out).Encode(live); err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(before))
		size += out.Len()
		old, page = shop, next
		if n++; n%40 == 0 { // the shop would grow without end
			b.StopTimer()
			old = screen.On(study.Of(start, catalog.Builtin()), nil)
			if page, err = old.Page(ctx, ask); err != nil {
				b.Fatal(err)
			}
			runtime.GC() // what the full answer left is no part of a step
			b.StartTimer()
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(shoptest.Elements(start)), "elements")
	b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "p95-ms")
	b.ReportMetric(float64(size)/float64(n), "bytes/edit")
}
