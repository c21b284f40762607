package demand_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func of(j *job.Job) *demand.Answer {
	m, _ := model.Build(j, catalog.Builtin())
	return demand.Of(j, m)
}

func worstFor(t *testing.T, a *demand.Answer, tool job.ID) demand.Set {
	t.Helper()
	for _, s := range a.Sets {
		if s.Subject == tool {
			return s
		}
	}
	t.Fatalf("no set for %s", tool)
	return demand.Set{}
}

func TestWorstSets(t *testing.T) {
	// Five tools of share 0.15: P(X>2) = 0.0266, P(X>3) = 0.0022 (binomial by
	// hand), so three run together but for 1 % of the time. With two of them
	// always together P(X>3) = 0.15·P(2 of 3 or more) = 0.15·0.06075 = 0.0091.
	base := func() *job.Job { return shoptest.Ring(5) }
	tests := []struct {
		name     string
		edit     func(*job.Job)
		subject  job.ID
		together int
		tools    []job.ID // that run, whatever their outlets
		without  []job.ID
	}{
		{"by flow", func(*job.Job) {}, "tool.1", 3, []job.ID{"tool.1", "tool.5", "tool.4"}, nil},
		{"not with", func(j *job.Job) { j.Tools[4].NotWith = []job.ID{"tool.1"} }, "tool.1", 3, []job.ID{"tool.1", "tool.4", "tool.3"}, []job.ID{"tool.5"}},
		{"always with", func(j *job.Job) { j.Tools[0].With = []job.ID{"tool.2"} }, "tool.1", 3, []job.ID{"tool.1", "tool.2", "tool.5"}, nil},
		{"crew of two", func(j *job.Job) { j.Work.Crew = 2 }, "tool.1", 2, []job.ID{"tool.1", "tool.5"}, nil},
		{"later", func(j *job.Job) { j.Tools[4].Later = true }, "tool.1", 3, []job.ID{"tool.1", "tool.4", "tool.3"}, []job.ID{"tool.5"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			j := base()
			tt.edit(j)
			a := of(j)
			if a.Together != tt.together {
				t.Errorf("%d together, want %d", a.Together, tt.together)
			}
			s := worstFor(t, a, tt.subject)
			var tools []job.ID
			for _, u := range s.Running {
				tools = append(tools, u.Tool)
			}
			if !slices.Equal(tools, tt.tools) {
				t.Errorf("running %v, want %v", tools, tt.tools)
			}
			for _, id := range tt.without {
				if slices.Contains(tools, id) {
					t.Errorf("%s runs though it may not", id)
				}
			}
		})
	}
}

func TestExclusionKeepsShares(t *testing.T) {
	j := shoptest.Ring(3)
	for i := range j.Tools { // all exclude each other: one at a time, each its 15 %
		j.Tools[i].NotWith = []job.ID{"tool.1", "tool.2", "tool.3"}
	}
	a := of(j)
	want := []float64{0.55, 0.45, 0, 0}
	for n, c := range a.Chance {
		if math.Abs(c-want[n]) > 1e-12 {
			t.Errorf("%d run for %v, want %v", n, c, want[n])
		}
	}
	if a.Together != 1 {
		t.Errorf("%d together, want 1", a.Together)
	}
}

func TestNamedSetsComeFirst(t *testing.T) {
	j := shoptest.Bench()
	a := of(j)
	if len(a.Sets) < 4 || a.Sets[0].ID != "set.friday" || a.Sets[0].Why != demand.Named {
		t.Fatalf("sets %+v", a.Sets)
	}
	// Rated flows: 2 mm nozzle, sander stated 0.0066, wrench by its row.
	row, _ := catalog.Builtin().Tool("impact-wrench-1/2")
	m, _ := model.Build(j, catalog.Builtin())
	gun, _ := m.PairOf(job.InUse{Tool: "tool.blow", Outlet: "outlet.a"})
	want := unit.FreeAir(0.0066+row.Flow.Value) + gun.FreeAir
	if math.Abs(float64(a.Sets[0].Rated-want)) > 1e-9 {
		t.Errorf("Friday takes %v, want %v", a.Sets[0].Rated, want)
	}
}

// Whatever the shop: no outlet and no tool is used beyond its number, nobody
// runs with whom it may not, and the chances add up.
func TestSetsKeepTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "drops")
		j := shoptest.Ring(n)
		for i := range j.Tools {
			j.Tools[i].Share = shoptest.To(unit.Ratio(rapid.Float64Range(0.01, 0.99).Draw(t, "share")))
			j.Tools[i].Count = rapid.IntRange(0, 2).Draw(t, "count")
			if rapid.Bool().Draw(t, "excludes") {
				j.Tools[i].NotWith = []job.ID{job.ID(fmt.Sprintf("tool.%d", rapid.IntRange(1, n).Draw(t, "whom")))}
			}
		}
		a := of(j)
		sum := 0.0
		for _, c := range a.Chance {
			sum += c
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("chances add up to %v", sum)
		}
		for _, s := range a.Sets {
			outlets, tools := map[job.ID]int{}, map[job.ID]int{}
			for _, u := range s.Running {
				outlets[u.Outlet]++
				tools[u.Tool]++
			}
			for _, tool := range j.Tools {
				if tools[tool.ID] > max(1, tool.Count) {
					t.Fatalf("%s runs %d times of %d", tool.ID, tools[tool.ID], tool.Count)
				}
				for _, id := range tool.NotWith {
					if id != tool.ID && tools[tool.ID] > 0 && tools[id] > 0 {
						t.Fatalf("%s runs with %s", tool.ID, id)
					}
				}
			}
			for id, k := range outlets {
				if k > 1 {
					t.Fatalf("%s is used %d times at once", id, k)
				}
			}
			if len(s.Running) > a.Together {
				t.Fatalf("%d run, %d at once at most", len(s.Running), a.Together)
			}
		}
	})
}

// One set by itself is the one that stands among all.
func TestOneIsAsAmongAll(t *testing.T) {
	shops := map[string]*job.Job{"bench": shoptest.Bench(), "ring": shoptest.Ring(7), "drawn": shoptest.Drawn(12)}
	shops["bench"].Tools[0].With = []job.ID{"tool.blow"}
	shops["ring"].Tools[2].Count = 2
	for name, j := range shops {
		m, _ := model.Build(j, catalog.Builtin())
		for _, want := range demand.Of(j, m).Sets {
			got, ok := demand.One(j, m, want.Key())
			if d := cmp.Diff(want, got); d != "" || !ok {
				t.Errorf("%s: %s by itself (-among all +by itself):\n%s", name, want.Key(), d)
			}
		}
		for _, key := range []string{"", "set.none", "worst-tool.none", "worst-"} {
			if got, ok := demand.One(j, m, key); ok {
				t.Errorf("%s: a set for %q: %v", name, key, got)
			}
		}
	}
}
