package day_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
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

// Every tool runs for its share of the time, the crew and what excludes what
// notwithstanding, within what chance allows over many days.
func TestDayKeepsShares(t *testing.T) {
	met := 0
	for _, name := range []string{"ailing", "frame-garage"} {
		met += keepsShares(t, name)
	}
	if met < 3 {
		t.Errorf("%d tools have outlets of their own", met)
	}
}

// keepsShares looks at one shop and tells how many of its tools could be judged.
func keepsShares(t *testing.T, name string) (met int) {
	j, m := shopOf(t, name)
	const days = 200
	a, err := day.Of(context.Background(), j, m, day.Ask{Seed: 11, Days: days})
	if err != nil {
		t.Fatal(err)
	}
	ran := map[job.ID]float64{}
	for _, tool := range a.Tools {
		ran[tool.ID] = float64(tool.Ran)
	}
	for _, actor := range demand.Actors(m, j.Work.Crew) {
		id, s := actor.Tools[0].Tool, actor.Share
		if crowded(m, actor.Tools[0]) {
			continue // now and then every outlet it could be at is taken: it runs less
		}
		met++
		// The variance of the mean of a free on-off process over a time T: its covariance is
		// s (1 − s) e^(−t/((1 − s) b)) with bursts of mean b, so 2 s (1 − s)² b/T. Who is
		// kept waiting comes less evenly: twice that.
		spread := math.Sqrt(2 * 2 * s * (1 - s) * (1 - s) * float64(actor.Burst) / (days * 8 * 3600))
		if math.Abs(ran[id]-s) > 4*spread {
			t.Errorf("%s ran %.5f of the time, want %.5f ± %.5f", id, ran[id], s, 4*spread)
		}
	}
	return met
}

// crowded says whether a tool shares an outlet with another.
func crowded(m *model.Model, u demand.User) bool {
	for _, p := range m.Pairs() {
		if p.Tool != u.Tool && slices.Contains(u.Outlets, p.Outlet) {
			return true
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

// BenchmarkEnough tells every tool's share short of pressure to half a point: twelve tools,
// and a shop of more sets than can be solved.
func BenchmarkEnough(b *testing.B) {
	for _, name := range []string{"boat-shop", "ring-main"} {
		b.Run(name, func(b *testing.B) {
			j, m := shopOf(b, name)
			for i := range b.N {
				if _, err := day.Of(context.Background(), j, m, day.Ask{Seed: uint64(i), Days: 500, Within: 0.005}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A tool by timetable runs just then, whatever the seed: half an hour of eight.
func TestToolByTheClock(t *testing.T) {
	file, _ := example.Read("frame-garage")
	text := strings.Replace(string(file), `"id": "tool.`, `"hours": "9:15-9:30, 14-14:15", "id": "tool.`, 1)
	j, bad := job.Parse([]byte(text))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	m, _ := model.Build(j, catalog.Builtin())
	for seed := range uint64(3) {
		a, err := day.Of(t.Context(), j, m, day.Ask{Seed: seed, Trace: true})
		if err != nil || a.Untold != "" {
			t.Fatal(a.Untold, err)
		}
		k := slices.IndexFunc(a.Tools, func(x day.Tool) bool { return x.ID == j.Tools[0].ID })
		if ran := float64(a.Tools[k].Ran); math.Abs(ran-0.5/8) > 1e-9 {
			t.Errorf("seed %d: ran %v of the day", seed, ran)
		}
		for _, at := range []float64{1.26, 1.49, 6.01} { // h after eight
			now, _ := a.At(unit.Duration(at * 3600))
			if !slices.ContainsFunc(now.Running, func(u job.InUse) bool { return u.Tool == j.Tools[0].ID }) {
				t.Errorf("seed %d: not running %v h into the day", seed, at)
			}
		}
	}
}
