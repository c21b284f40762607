package desk

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// Do on a job of about a thousand elements, in memory and on a disk, in the job and
// in an alternative of a hundred steps, next to the bare edit. Nothing is solved.
func BenchmarkDo(b *testing.B) {
	j := shoptest.Drawn(250)
	j.Plans = []job.Plan{{ID: "plan.b", Name: "wider", Edits: []job.EditForm{}}}
	for n := range 100 {
		j.Plans[0].Edits = append(j.Plans[0].Edits, set(j.Net.Runs[n].ID, "slope", "0.02").Form())
	}
	b.Logf("%d elements, %d runs", shoptest.Elements(j), len(j.Net.Runs))
	run := j.Net.Runs[len(j.Net.Runs)-1].ID
	edit := func(n int) job.Edit { return set(run, "slope", fmt.Sprint(0.01+float64(n%9)/1000)) }
	b.Run("apply", func(b *testing.B) {
		n := 0
		for b.Loop() {
			n++
			if _, _, err := edit(n).Apply(j); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("after", func(b *testing.B) {
		n, s := 0, study.Of(j, catalog.Builtin())
		for b.Loop() {
			n++
			var err error
			if s, err = s.After(edit(n)); err != nil {
				b.Fatal(err)
			}
		}
	})
	s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "jobs.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	for _, row := range []struct {
		name string
		keep keeper
		plan job.ID
	}{
		{"memory", newMemory(), ""},
		{"memory/alternative", newMemory(), "plan.b"},
		{"disk", s, ""},
	} {
		b.Run(row.name, func(b *testing.B) {
			d := deskOn(b, row.keep)
			w := opened(b, d, j)
			n := 0
			for b.Loop() {
				n++
				ask := asks(w, "Mika", edit(n))
				ask.Plan = row.plan
				if row.plan != "" && n%100 == 0 { // it would grow without end
					b.StopTimer()
					w = opened(b, d, j)
					b.StartTimer()
					ask = asks(w, "Mika", edit(n))
					ask.Plan = row.plan
				}
				if _, err := w.Do(b.Context(), ask); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Opening a job of two thousand steps that was put away, and one undo.
func BenchmarkOpen(b *testing.B) {
	k := newMemory()
	d := deskOn(b, k)
	w := opened(b, d, shoptest.Drawn(250))
	run := w.seen.Load().study.Job().Net.Runs[3].ID
	for n := range 2000 {
		does(b, w, "Mika", set(run, "slope", fmt.Sprint(0.01+float64(n%9)/1000)))
	}
	if err := d.Close(); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		w := work(b, deskOn(b, k), w.ID())
		if n := now(b, w, ""); n.Undo == "" {
			b.Fatal("nothing to undo")
		}
	}
}
