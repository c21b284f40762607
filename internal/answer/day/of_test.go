package day_test

import (
	"context"
	"math"
	"testing"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

func shopOf(t testing.TB, name string) (*job.Job, *model.Model) {
	t.Helper()
	file, ok := example.Read(name)
	if !ok {
		t.Fatal("no example " + name)
	}
	j, bad := job.Parse(file)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	m, _ := model.Build(j, catalog.Builtin())
	return j, m
}

// Every example has its day, its air is accounted for, and the same seed gives the same.
func TestDayOfExamples(t *testing.T) {
	for _, e := range example.All() {
		name := e.Name
		if name == "ring-main" && testing.Short() {
			continue // hundreds of sets
		}
		j, m := shopOf(t, name)
		ask := day.Ask{Seed: 5, Days: 2, Time: 2 * 3600}
		a, err := day.Of(context.Background(), j, m, ask)
		if err != nil {
			t.Fatal(err)
		}
		if a.Untold != "" {
			t.Errorf("%s: %s", name, a.Untold)
			continue
		}
		if math.Abs(a.Balance) > 1e-6 {
			t.Errorf("%s: balance %g", name, a.Balance)
		}
		b, err := day.Of(context.Background(), j, m, ask)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Compressors {
			if a.Compressors[i] != b.Compressors[i] {
				t.Errorf("%s: %+v, then %+v", name, a.Compressors[i], b.Compressors[i])
			}
		}
	}
}

// A tool's share of the time, in a shop where nobody keeps it from working, is what it
// ran, within what chance allows over many days.
func TestDayKeepsShares(t *testing.T) {
	j, m := shopOf(t, "ailing")
	j.Work.Crew = 0
	a, err := day.Of(context.Background(), j, m, day.Ask{Seed: 11, Days: 300})
	if err != nil {
		t.Fatal(err)
	}
	shares := map[job.ID]float64{}
	bars := map[job.ID]bool{}
	for _, actor := range demand.Actors(m) {
		for _, u := range actor.Tools {
			shares[u.Tool] += actor.Share
			bars[u.Tool] = bars[u.Tool] || len(actor.Bars) > 0 || len(u.Outlets) > 0 && crowded(m, u)
		}
	}
	free := 0
	for _, tool := range a.Tools {
		if bars[tool.ID] {
			continue
		}
		free++
		// The variance of the mean of an on-off process over a time T: its covariance is
		// s (1 − s) e^(−t/((1 − s) b)) with bursts of mean b, so 2 s (1 − s)² b/T.
		s := shares[tool.ID]
		burst := 0.0
		for _, actor := range demand.Actors(m) {
			if actor.Tools[0].Tool == tool.ID {
				burst = float64(actor.Burst)
			}
		}
		spread := math.Sqrt(2 * s * (1 - s) * (1 - s) * burst / (300 * 8 * 3600))
		if math.Abs(float64(tool.Ran)-s) > 4*spread {
			t.Errorf("%s ran %.5f of the time, want %.5f ± %.5f", tool.ID, tool.Ran, s, 4*spread)
		}
	}
	if free == 0 {
		t.Skip("every tool of the example shares its outlet")
	}
}

// crowded says whether a tool shares an outlet with another.
func crowded(m *model.Model, u demand.User) bool {
	for _, p := range m.Pairs() {
		for _, o := range u.Outlets {
			if p.Outlet == o && p.Tool != u.Tool {
				return true
			}
		}
	}
	return false
}

func BenchmarkDay(b *testing.B) {
	j, m := shopOf(b, "boat-shop")
	for i := range b.N {
		if _, err := day.Of(context.Background(), j, m, day.Ask{Seed: uint64(i), Days: 1}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDays1000(b *testing.B) {
	j, m := shopOf(b, "boat-shop")
	for i := range b.N {
		if _, err := day.Of(context.Background(), j, m, day.Ask{Seed: uint64(i), Days: 1000}); err != nil {
			b.Fatal(err)
		}
	}
}
