package demand_test

import (
	"fmt"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"

	"pgregory.net/rapid"
)

// all lists every set of actors that may run, with its chance, by brute force.
func all(actors []demand.Actor, crew int) (masks []int, chances []float64) {
	total := 0.0
	for mask := range 1 << len(actors) {
		chance, hands, allowed := 1.0, 0, true
		for i, a := range actors {
			if mask>>i&1 == 0 {
				continue
			}
			chance *= a.Odds
			hands += len(a.Tools)
			for _, k := range a.Bars {
				allowed = allowed && mask>>k&1 == 0
			}
		}
		if allowed && (crew == 0 || hands <= crew) {
			masks, chances = append(masks, mask), append(chances, chance)
			total += chance
		}
	}
	for i := range chances {
		chances[i] /= total
	}
	return masks, chances
}

// Whatever excludes whom, whatever the crew: chances of numbers, mean and levels of the
// flow are those of the list of all sets; and where shares can be had, each runs for its own.
func TestAgainstAllSets(t *testing.T) {
	met, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "drops")
		j := shoptest.Ring(n)
		most := rapid.Float64Range(0.02, 0.95).Draw(t, "most")
		for i := range j.Tools {
			j.Tools[i].Share = shoptest.To(unit.Ratio(rapid.Float64Range(0.01, most).Draw(t, "share")))
			if rapid.IntRange(0, 2).Draw(t, "excludes") == 0 {
				j.Tools[i].NotWith = []job.ID{job.ID(fmt.Sprintf("tool.%d", rapid.IntRange(1, n).Draw(t, "whom")))}
			}
		}
		if rapid.Bool().Draw(t, "pairs") {
			j.Tools[0].With, j.Tools[0].NotWith, j.Tools[1].NotWith = []job.ID{"tool.2"}, nil, nil
		}
		j.Work.Crew = rapid.IntRange(0, n).Draw(t, "crew")
		if j.Work.Crew == 1 && j.Tools[0].With != nil {
			j.Work.Crew = 2
		}
		m, _ := model.Build(j, catalog.Builtin())
		a := demand.Of(j, m)
		actors := demand.Actors(m, j.Work.Crew)
		masks, chances := all(actors, j.Work.Crew)

		flow := map[job.ID]float64{}
		for _, tool := range m.Tools() {
			flow[tool.ID] = float64(tool.FreeAir)
		}
		number := make([]float64, len(a.Chance))
		runs := make([]float64, len(actors))
		mean, square, above := 0.0, 0.0, make([]float64, len(a.Levels))
		for s, mask := range masks {
			k, sum := 0, 0.0
			for i, actor := range actors {
				if mask>>i&1 == 1 {
					runs[i] += chances[s]
					for _, u := range actor.Tools {
						k++
						sum += flow[u.Tool]
					}
				}
			}
			number[k] += chances[s]
			mean += chances[s] * sum
			square += chances[s] * sum * sum
			for i, level := range a.Levels {
				if sum > float64(level.Flow+a.Within)*(1+1e-12) {
					above[i] += chances[s]
				}
			}
		}
		for k, c := range a.Chance {
			if math.Abs(c-number[k]) > 1e-9 {
				t.Fatalf("%d run for %v, by listing %v", k, c, number[k])
			}
		}
		if math.Abs(float64(a.Mean)-mean) > 1e-9*mean {
			t.Fatalf("mean %v, by listing %v", a.Mean, mean)
		}
		if sd := math.Sqrt(max(0, square-mean*mean)); math.Abs(float64(a.SD)-sd) > 1e-6*mean {
			t.Fatalf("deviation %v, by listing %v", a.SD, sd)
		}
		for i, level := range a.Levels {
			if above[i] > 1-level.Share+1e-9 {
				t.Fatalf("more than the flow of %v %% for %v of the time", 100*level.Share, above[i])
			}
		}
		had := true
		for i, actor := range actors {
			had = had && math.Abs(runs[i]-actor.Share*a.Cut) < 1e-6
		}
		tried++
		if had {
			met++
		}
	})
	if met*2 < tried {
		t.Errorf("shares were met in %d of %d shops", met, tried)
	}
}

// Three people cannot run eleven tools: by hand, eleven of share 0.6 ask for 6.6 hands, so
// that each share is cut to 3 × 0.98/6.6 of it, and never more than three run.
func TestCrewLimit(t *testing.T) {
	j := shoptest.Ring(11)
	for i := range j.Tools {
		j.Tools[i].Share = shoptest.To(unit.Ratio(0.6))
	}
	j.Work.Crew = 3
	a := of(j)
	if len(a.Chance) != 4 || a.Together != 3 {
		t.Errorf("up to %d run, %d together", len(a.Chance)-1, a.Together)
	}
	if want := 3 * 0.98 / 6.6; math.Abs(a.Cut-want) > 1e-12 {
		t.Errorf("shares cut to %v, want %v", a.Cut, want)
	}
	mean := 0.0
	for n, c := range a.Chance {
		mean += float64(n) * c
	}
	if math.Abs(mean-3*0.98) > 1e-6 {
		t.Errorf("%v hands busy, want %v", mean, 3*0.98)
	}
}
