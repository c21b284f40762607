package tree

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

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

// reducers makes a step of size on the main, and a tee with a branch of its own size, cost
// about what such a fitting costs more.
func (b *bare) reducers() {
	for i := range b.Places {
		v := &b.Places[i]
		if v.Parent < 0 || i%3 == 2 {
			continue
		}
		m := Meet{Places: []int{v.Parent, i}}
		for _, above := range b.Places[v.Parent].Options {
			for _, own := range v.Options {
				price := 0.0
				if above.Bore != own.Bore {
					price = math.Round(1e4*max(above.Bore, own.Bore)) / 100 * float64(2-i%3)
				}
				m.Price = append(m.Price, price)
			}
		}
		b.Meets = append(b.Meets, m)
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{18, 30, 45, 60, -30, -45, -60, 240} {
		name := fmt.Sprintf("%d places", max(n, -n))
		if n < 0 {
			name += " that meet"
		}
		b.Run(name, func(b *testing.B) {
			g := shop(rand.New(rand.NewPCG(5, 5)), max(n, -n), 12)
			if n < 0 {
				g.reducers()
			}
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
