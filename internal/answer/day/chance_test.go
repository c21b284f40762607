package day

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// The share of time of every set, against the product form by listing all sets.
// Bounds are four standard errors over blocks of the run.
func TestTurnsKeepShares(t *testing.T) {
	r := Rota{Crew: 2, Actors: []Actor{
		{Odds: 0.3, Burst: 40, Hands: 1},
		{Odds: 0.2, Burst: 10, Hands: 1, Bars: []int{2}},
		{Odds: 0.5, Burst: 25, Hands: 1, Bars: []int{1}},
		{Odds: 0.1, Burst: 60, Hands: 0},
	}}
	want, total := map[string]float64{}, 0.0
	for mask := range 16 {
		on := make([]bool, 4)
		p := 1.0
		for i, a := range r.Actors {
			on[i] = mask>>i&1 == 1
			if on[i] {
				p *= a.Odds
			}
		}
		hands := 0
		for i, a := range r.Actors {
			if on[i] {
				hands += a.Hands
			}
		}
		if hands <= r.Crew && !(on[1] && on[2]) {
			want[key(on)] += p
			total += p
		}
	}
	const blocks, seconds = 400, 20_000.0
	sums, squares := map[string]float64{}, map[string]float64{}
	for b := range blocks {
		had := map[string]float64{}
		turns := r.Turns(rand.New(rand.NewPCG(7, uint64(b))), seconds)
		for i, turn := range turns {
			end := seconds
			if i+1 < len(turns) {
				end = turns[i+1].At
			}
			had[key(turn.On)] += (end - turn.At) / seconds
		}
		for k := range want {
			sums[k] += had[k]
			squares[k] += had[k] * had[k]
		}
		for k := range had {
			if _, ok := want[k]; !ok {
				t.Fatalf("set %s may not run", k)
			}
		}
	}
	for k, p := range want {
		mean := sums[k] / blocks
		spread := math.Sqrt((squares[k]/blocks - mean*mean) / blocks)
		if math.Abs(mean-p/total) > 4*spread {
			t.Errorf("set %s: %.5f of the time, want %.5f ± %.5f", k, mean, p/total, 4*spread)
		}
	}
}

func TestTurnsRepeat(t *testing.T) {
	r := Rota{Actors: []Actor{{Odds: 0.4, Burst: 30}, {Odds: 0, Burst: 5}}}
	a := r.Turns(rand.New(rand.NewPCG(1, 2)), 3600)
	b := r.Turns(rand.New(rand.NewPCG(1, 2)), 3600)
	if !slices.EqualFunc(a, b, func(x, y Turn) bool { return x.At == y.At && slices.Equal(x.On, y.On) }) {
		t.Error("the same source of chance gave other turns")
	}
	for _, turn := range a {
		if turn.On[1] {
			t.Fatal("a tool that never runs began")
		}
	}
}

func key(on []bool) string {
	s := ""
	for _, x := range on {
		s += string(rune('0' + map[bool]int{true: 1}[x]))
	}
	return s
}

// Who never pauses, and is kept by another from running, does not come again without end.
func TestAnActorWithoutPause(t *testing.T) {
	for _, odds := range []float64{1e12, math.Inf(1)} {
		r := Rota{Crew: 1, Actors: []Actor{{Odds: odds, Burst: 30, Hands: 1}, {Odds: odds, Burst: 30, Hands: 1}}}
		turns := r.Turns(rand.New(rand.NewPCG(1, 2)), 3600)
		if len(turns) < 50 || len(turns) > 1000 {
			t.Fatalf("odds %g: %d turns", odds, len(turns))
		}
		idle := 0.0
		for i, turn := range turns {
			end := 3600.0
			if i+1 < len(turns) {
				end = turns[i+1].At
			}
			if turn.On[0] == turn.On[1] {
				idle += end - turn.At
			}
		}
		if idle > 1e-6 {
			t.Errorf("odds %g: the one pair of hands rests %g s, or holds two tools", odds, idle)
		}
	}
}

// By hand: one pair of hands; the first tool has it from 600 s to 1200 s and again from 1800 s,
// the second wants it from 900 s on and waits until 1200 s. No chance is in it.
func TestTimetable(t *testing.T) {
	r := Rota{Crew: 1, Actors: []Actor{
		{Burst: 600, Hands: 1, Spells: [][2]float64{{600, 1200}, {1800, 2400}}},
		{Burst: 600, Hands: 1, Spells: [][2]float64{{900, 1500}}},
	}}
	want := []struct {
		from, to float64
		who      int
	}{{600, 1200, 0}, {1200, 1500, 1}, {1800, 2400, 0}}
	for seed := range uint64(5) {
		turns := r.Turns(rand.New(rand.NewPCG(seed, 0)), 3600)
		got := want[:0:0]
		for i, turn := range turns {
			end := 3600.0
			if i+1 < len(turns) {
				end = turns[i+1].At
			}
			for who, on := range turn.On {
				if on && end > turn.At {
					got = append(got, struct {
						from, to float64
						who      int
					}{turn.At, end, who})
				}
			}
		}
		if !slices.Equal(got, want) {
			t.Fatalf("seed %d: %v, want %v", seed, got, want)
		}
	}
	// One that is on as the day begins, beside one by chance that keeps its share.
	mixed := Rota{Actors: []Actor{{Burst: 60, Hands: 1, Spells: [][2]float64{{0, 300}}}, {Odds: 1, Burst: 20, Hands: 1}}}
	turns := mixed.Turns(rand.New(rand.NewPCG(1, 1)), 3600)
	on := [2]float64{}
	for i, turn := range turns {
		end := 3600.0
		if i+1 < len(turns) {
			end = turns[i+1].At
		}
		for k := range on {
			if turn.On[k] {
				on[k] += end - turn.At
			}
		}
	}
	if math.Abs(on[0]-300) > 1e-9 || math.Abs(on[1]-1800) > 400 {
		t.Errorf("on for %v", on)
	}
}
