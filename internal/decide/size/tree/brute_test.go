package tree

import (
	"context"
	"errors"
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
	r     [][]float64 // by place and option
	meets [][]int     // the places of each meet
}

// meet gives some places that lie in one tree prices together: none to a cent for every
// selection of their options, so many thousandths of a unit by chance.
func (b *bare) meet(rng *rand.Rand, most float64) {
	for i := range b.Places {
		switch v := &b.Places[i]; {
		case v.Parent < 0 || rng.IntN(3) == 0:
		case rng.IntN(4) == 0: // with whatever else there is
			if k := rng.IntN(len(b.Places)); k != i {
				b.meets = append(b.meets, []int{i, k})
			}
		case rng.IntN(2) == 0:
			b.meets = append(b.meets, []int{v.Parent, i})
		default: // with what hangs beside it
			group := []int{v.Parent}
			for k := range b.Places {
				if b.Places[k].Parent == v.Parent && len(group) < 4 {
					group = append(group, k)
				}
			}
			b.meets = append(b.meets, group)
		}
	}
	b.price(most)
}

// price sets the prices of all meets anew: the same for the same options.
func (b *bare) price(most float64) {
	b.Meets = nil
	for g, places := range b.meets {
		n := 1
		for _, v := range places {
			n *= len(b.Places[v].Options)
		}
		m := Meet{Places: places, Price: make([]float64, n)}
		for at := range m.Price {
			rest, key, first, alike := at, uint64(g+1), -1, true
			for i := len(places) - 1; i >= 0; i-- {
				o := rest % len(b.Places[places[i]].Options)
				rest /= len(b.Places[places[i]].Options)
				key = key*1_000_003 + uint64(o)
				if alike = alike && (first < 0 || o == first); first < 0 {
					first = o
				}
			}
			if !alike {
				m.Price[at] = math.Round(100*most*rand.New(rand.NewPCG(key, 5)).Float64()) / 100
			}
		}
		b.Meets = append(b.Meets, m)
	}
}

// together is what the meets cost.
func (b *bare) together(chosen []int) float64 {
	sum := 0.0
	for _, m := range b.Meets {
		at := 0
		for _, v := range m.Places {
			at = at*len(b.Places[v].Options) + chosen[v]
		}
		sum += m.Price[at]
	}
	return sum
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

// costs is the price of a selection.
func (b *bare) costs(chosen []int) float64 {
	sum := b.together(chosen)
	for i, o := range chosen {
		sum += b.Places[i].Options[o].Price
	}
	return sum
}

// alike: places that share their option do.
func (b *bare) alike(chosen []int) bool {
	option := map[int]int{}
	for i := range b.Places {
		group := b.Places[i].Shared
		if o, ok := option[group]; ok && group > 0 && o != chosen[i] {
			return false
		}
		option[group] = chosen[i]
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
			if price += b.together(chosen); price < best && b.alike(chosen) && b.holds(chosen) {
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
	for seed := range uint64(1200) {
		rng := rand.New(rand.NewPCG(seed, 7))
		b := generate(rng, 3+rng.IntN(7), 4, 1+rng.IntN(4))
		if seed%4 > 0 {
			b.meet(rng, []float64{1, 5, 40}[seed%3])
		}
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
		if !b.holds(a.Chosen) || math.Abs(b.costs(a.Chosen)-a.Price) > 1e-9 {
			t.Errorf("seed %d: the selection does not hold, or costs %v and not %v", seed, b.costs(a.Chosen), a.Price)
		}
	}
	if answered < 600 {
		t.Errorf("only %d problems had an answer", answered)
	}
}
