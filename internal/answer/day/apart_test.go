package day

import (
	"context"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

func boatShop(t *testing.T) (*job.Job, *model.Model) {
	t.Helper()
	file, _ := example.Read("boat-shop")
	j, bad := job.Parse(file)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	m, _ := model.Build(j, catalog.Builtin())
	return j, m
}

// A shop whose sets can all be solved is worked through both ways: by every set's own
// table, and by what its tools take apart with moments looked at. Air taken, duty and the
// share of the time that each tool goes short agree.
func TestApartAgrees(t *testing.T) {
	ctx := context.Background()
	j, m := boatShop(t)
	ask := Ask{Seed: 3, Days: 60, Time: Shift}
	through := func(apart bool) *Answer {
		s, untold := newShop(ctx, j, m)
		if untold != "" {
			t.Fatal(untold)
		}
		if apart {
			if err := s.takeApart(ctx, ask); err != nil {
				t.Fatal(err)
			}
		}
		days, err := s.through(ctx, ask, 0, ask.Days)
		if err != nil {
			t.Fatal(err)
		}
		a := ask.answer("")
		s.sum(a, days)
		return a
	}
	exact, apart := through(false), through(true)
	if exact.Looked != 0 || apart.Looked < 1000 {
		t.Fatalf("looked at %d and %d moments", exact.Looked, apart.Looked)
	}
	if apart.Off > 0.02 {
		t.Errorf("the law of tools apart misses by %v", apart.Off)
	}
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s: %v, want %v within %v", what, got, want, within)
		}
	}
	near("air taken", float64(apart.Taken), float64(exact.Taken), 0.005*float64(exact.Taken))
	near("duty", float64(apart.Compressors[0].Duty), float64(exact.Compressors[0].Duty), 0.005)
	shorts := 0
	for i, tool := range exact.Tools {
		got := apart.Tools[i]
		near(string(tool.ID)+" ran", float64(got.Ran), float64(tool.Ran), 1e-9)
		// The days are the same: what differs is which moments were looked at. All tools are
		// to agree at once: 99.9 % of each (3.3 standard errors, of which Within is 1.96).
		within := 3.3/1.96*math.Hypot(float64(got.Within), float64(tool.Within)) + 0.001
		near(string(tool.ID)+" short", float64(got.Short), float64(tool.Short), within)
		if tool.Short > 0.01 {
			shorts++
		}
	}
	if shorts == 0 {
		t.Error("no tool goes short: nothing was compared")
	}
}

// Asked for half a point, the days end as soon as every tool's share is known so well.
func TestWithin(t *testing.T) {
	ctx := context.Background()
	j, m := boatShop(t)
	const within unit.Ratio = 0.005
	a, err := Of(ctx, j, m, Ask{Seed: 1, Days: 500, Within: within})
	if err != nil {
		t.Fatal(err)
	}
	if a.Days >= 500 || a.Days%round != 0 {
		t.Errorf("%d days", a.Days)
	}
	known := 0
	for _, tool := range a.Tools {
		if tool.Within > within {
			t.Errorf("%s is known to %v", tool.ID, tool.Within)
		}
		if tool.Within > 0 {
			known++
		}
	}
	if known == 0 {
		t.Error("no tool goes short: nothing was asked")
	}
}
