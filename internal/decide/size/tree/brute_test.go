package tree

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// drops are laws of which every loss in squared pressure hangs on flow and option alone:
// p1² − p2² = r m². r by option in Pa²·s²/kg².
func drops(r []float64, flow []float64) func(int, int, int, float64) float64 {
	return func(option, kase, _ int, out float64) float64 {
		return math.Sqrt(out*out + r[option]*flow[kase]*flow[kase])
	}
}

// bare is a problem with the constants of its laws, so that others can reckon with it.
type bare struct {
	Problem
	r [][]float64 // by place and option
}

// generate makes a tree of n places with up to opts options and some cases: ends take air
// by chance, the sum flows above.
func generate(rng *rand.Rand, n, opts, cases int) *bare {
	b := &bare{Problem: Problem{Cases: cases}, r: make([][]float64, n)}
	const supply = 8e5
	for i := range n {
		v := Place{Parent: -1, Flow: make([]float64, cases), Least: make([]float64, cases)}
		if i == 0 {
			v.Supply = slices.Repeat([]float64{supply}, cases)
		} else {
			v.Parent = max(0, i-1-rng.IntN(3))
		}
		v.Line = rng.IntN(4) > 0
		price, bore := 1+9*rng.Float64(), 0.010+0.004*rng.Float64()
		for range 1 + rng.IntN(opts) {
			v.Options = append(v.Options, Option{Price: math.Round(100*price) / 100, Bore: math.Round(1e3*bore) / 1e3})
			b.r[i] = append(b.r[i], 1e13*math.Pow(0.012/bore, 5)*(0.5+rng.Float64()))
			price *= 1.2 + 0.8*rng.Float64()
			bore *= 1.1 + 0.3*rng.Float64()
		}
		b.Places = append(b.Places, v)
	}
	hasChild := map[int]bool{}
	for i := range b.Places {
		hasChild[b.Places[i].Parent] = true
	}
	for i := n - 1; i >= 0; i-- {
		v := &b.Places[i]
		if !hasChild[i] {
			need, takes, alike := supply*(0.75+0.2*rng.Float64()), 0.002+0.01*rng.Float64(), rng.IntN(2) > 0
			for c := range cases {
				if !alike {
					takes = 0.002 + 0.01*rng.Float64()
				}
				if rng.IntN(3) > 0 {
					v.Flow[c], v.Least[c] = takes, need
				}
			}
		}
		for c := range cases {
			if v.Parent >= 0 {
				b.Places[v.Parent].Flow[c] += v.Flow[c]
			}
		}
		v.Inlet = drops(b.r[i], v.Flow)
	}
	return b
}

// holds follows the pressures down from the source.
func (b *bare) holds(chosen []int) bool {
	for c := range b.Cases {
		square := make([]float64, len(b.Places))
		for i := range b.Places {
			v := &b.Places[i]
			in := 0.0
			if v.Parent < 0 {
				in = v.Supply[c] * v.Supply[c]
			} else {
				in = square[v.Parent]
			}
			square[i] = in - b.r[i][chosen[i]]*v.Flow[c]*v.Flow[c]
			if v.Flow[c] > 0 && v.Least[c] > 0 && square[i] < v.Least[c]*v.Least[c]*(1-1e-12) {
				return false
			}
		}
	}
	return b.narrows(chosen)
}

// narrows: no line is wider than the next line above it.
func (b *bare) narrows(chosen []int) bool {
	for i := range b.Places {
		if !b.Places[i].Line {
			continue
		}
		up := b.Places[i].Parent
		for up >= 0 && !b.Places[up].Line {
			up = b.Places[up].Parent
		}
		if up >= 0 && b.Places[i].Options[chosen[i]].Bore > b.Places[up].Options[chosen[up]].Bore {
			return false
		}
	}
	return true
}

// brute tries all selections.
func (b *bare) brute() float64 {
	best, chosen := math.Inf(1), make([]int, len(b.Places))
	var walk func(i int, price float64)
	walk = func(i int, price float64) {
		if price >= best {
			return
		}
		if i == len(b.Places) {
			if b.holds(chosen) {
				best = price
			}
			return
		}
		for o := range b.Places[i].Options {
			chosen[i] = o
			walk(i+1, price+b.Places[i].Options[o].Price)
		}
	}
	walk(0, 0)
	return best
}

func TestBrute(t *testing.T) {
	answered := 0
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 7))
		b := generate(rng, 3+rng.IntN(7), 4, 1+rng.IntN(4))
		want := b.brute()
		a, err := b.Solve(context.Background())
		var none *NoneError
		switch {
		case errors.As(err, &none):
			if !math.IsInf(want, 1) {
				t.Errorf("seed %d: none, and there is one of %v", seed, want)
			}
			continue
		case err != nil:
			t.Fatal(err)
		}
		answered++
		if math.Abs(a.Price-want) > 1e-9 || !a.Proven {
			t.Errorf("seed %d: price %v, proven %v; the least of all selections is %v", seed, a.Price, a.Proven, want)
		}
		if !b.holds(a.Chosen) {
			t.Errorf("seed %d: the selection does not hold", seed)
		}
	}
	if answered < 200 {
		t.Errorf("only %d problems had an answer", answered)
	}
}

// shop is a main with branches and drops off it, n places of lengths by chance, all of one
// ladder of sizes, the bores and relative prices of copper tube (1/2 to 2 in, nominal).
func shop(rng *rand.Rand, n, cases int) *bare {
	bores := []float64{0.0138, 0.0199, 0.0260, 0.0321, 0.0383, 0.0504}
	prices := []float64{6.9, 10.6, 15.4, 22, 29, 46}
	b := &bare{Problem: Problem{Cases: cases}, r: make([][]float64, n)}
	for i := range n {
		v := Place{Parent: i - 1, Line: true, Flow: make([]float64, cases), Least: make([]float64, cases)}
		if i == 0 {
			v.Supply = slices.Repeat([]float64{8e5}, cases)
		}
		length := 1 + 5*rng.Float64()
		switch i % 3 {
		case 1: // a drop off the main
			v.Parent = max(0, i-1)
		case 2: // its hose, of which there are three
			v.Parent, v.Line = i-1, false
			length *= 2
		case 0:
			v.Parent = max(i-3, -1)
			v.CarriesOn = true
		}
		for o, bore := range bores {
			price := math.Round(100*prices[o]*length) / 100
			if !v.Line {
				if o > 2 {
					break
				}
				bore *= 0.55
			}
			v.Options = append(v.Options, Option{Price: price, Bore: bore})
			area := math.Pi / 4 * bore * bore
			b.r[i] = append(b.r[i], 84140*0.024*length/bore/(area*area))
		}
		b.Places = append(b.Places, v)
	}
	for i := n - 1; i >= 0; i-- {
		v := &b.Places[i]
		takes := 0.003 + 0.004*rng.Float64()
		for c := range cases {
			if !v.Line && rng.IntN(n/3) < 6 {
				v.Flow[c], v.Least[c] = takes, 7e5
			}
			if v.Parent >= 0 {
				b.Places[v.Parent].Flow[c] += v.Flow[c]
			}
		}
		v.Inlet = drops(b.r[i], v.Flow)
	}
	return b
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{18, 30, 45, 60, 240} {
		b.Run(fmt.Sprintf("%d places", n), func(b *testing.B) {
			g := shop(rand.New(rand.NewPCG(5, 5)), n, 12)
			for b.Loop() {
				a, err := g.Solve(context.Background())
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(100*(a.Price-a.Bound)/a.Price, "%gap")
				b.ReportMetric(float64(a.Labels), "labels")
			}
		})
	}
}
