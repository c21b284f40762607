package tree

import (
	"math"
	"math/rand/v2"
	"testing"
)

// priceOf is the least price; +Inf where nothing does.
func priceOf(t *testing.T, b *bare) float64 {
	t.Helper()
	a, err := b.Solve(t.Context())
	if err != nil {
		return math.Inf(1)
	}
	if !a.Proven {
		t.Fatal("a small problem is not proven")
	}
	return a.Price
}

// Another option on offer never makes the least dearer.
func TestMoreOnOffer(t *testing.T) {
	for seed := range uint64(150) {
		rng := rand.New(rand.NewPCG(seed, 1))
		b := generate(rng, 4+rng.IntN(8), 4, 1+rng.IntN(3))
		b.meet(rng, 4)
		was := priceOf(t, b)
		i := rng.IntN(len(b.Places))
		one := b.Places[i].Options[0]
		one.Bore, one.Price = one.Bore*(0.8+rng.Float64()), one.Price*(0.5+rng.Float64())
		b.Places[i].Options = append(b.Places[i].Options, one)
		b.r[i] = append(b.r[i], b.r[i][0]*(0.3+rng.Float64()))
		b.Places[i].Inlet = drops(b.r[i], b.Places[i].Flow)
		b.price(4)
		if is := priceOf(t, b); is > was+1e-9 {
			t.Errorf("seed %d: %v with one option more, %v without", seed, is, was)
		}
	}
}

// More pressure wanted, less at the source, or a case more never makes it cheaper.
func TestTighter(t *testing.T) {
	for seed := range uint64(150) {
		rng := rand.New(rand.NewPCG(seed, 2))
		b := generate(rng, 4+rng.IntN(8), 4, 2)
		b.meet(rng, 4)
		was := priceOf(t, b)
		switch seed % 3 {
		case 0:
			v := &b.Places[len(b.Places)-1]
			for c := range v.Least {
				v.Least[c] *= 1 + 0.05*rng.Float64()
			}
		case 1:
			b.Places[0].Supply[0] *= 1 - 0.05*rng.Float64()
		case 2:
			fewer := *b
			fewer.Cases = 1
			fewer.Places = nil
			for _, v := range b.Places {
				v.Flow, v.Least = v.Flow[:1], v.Least[:1]
				if v.Parent < 0 {
					v.Supply = v.Supply[:1]
				}
				fewer.Places = append(fewer.Places, v)
			}
			if one := priceOf(t, &fewer); one > was+1e-9 {
				t.Errorf("seed %d: one case %v, two %v", seed, one, was)
			}
			continue
		}
		if is := priceOf(t, b); is < was-1e-9 {
			t.Errorf("seed %d: %v tighter, %v before", seed, is, was)
		}
	}
}

// Places that share their option are one choice; counted out.
func TestShared(t *testing.T) {
	for seed := range uint64(120) {
		rng := rand.New(rand.NewPCG(seed, 3))
		b := generate(rng, 4+rng.IntN(5), 3, 1+rng.IntN(3))
		b.meet(rng, 4)
		x, y := rng.IntN(len(b.Places)), rng.IntN(len(b.Places))
		if x == y || len(b.Places[x].Options) != len(b.Places[y].Options) {
			continue
		}
		b.Places[x].Shared, b.Places[y].Shared = 1, 1
		want := b.brute()
		if got := priceOf(t, b); math.Abs(got-want) > 1e-9 && !(math.IsInf(got, 1) && math.IsInf(want, 1)) {
			t.Errorf("seed %d: %v, counted out %v", seed, got, want)
		}
	}
}

// With little effort the answer holds, and its bound lies beneath the least.
func TestLittleEffort(t *testing.T) {
	for seed := range uint64(40) {
		b := shop(rand.New(rand.NewPCG(seed, 4)), 21, 4)
		if seed%2 > 0 {
			b.reducers()
		}
		least := priceOf(t, b)
		b.Effort = 200
		a, err := b.Solve(t.Context())
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if a.Price < least-1e-9 || a.Bound > least+1e-9 || !b.holds(a.Chosen) {
			t.Errorf("seed %d: price %v, bound %v, the least is %v", seed, a.Price, a.Bound, least)
		}
	}
}

// What is no problem is refused.
func TestRefused(t *testing.T) {
	good := generate(rand.New(rand.NewPCG(1, 5)), 4, 3, 2)
	for name, spoil := range map[string]func(*Problem){
		"no case":          func(p *Problem) { p.Cases = 0 },
		"no place":         func(p *Problem) { p.Places = nil },
		"no option":        func(p *Problem) { p.Places[1].Options = nil },
		"no law":           func(p *Problem) { p.Places[1].Inlet = nil },
		"own parent":       func(p *Problem) { p.Places[1].Parent = 1 },
		"price NaN":        func(p *Problem) { p.Places[0].Options[0].Price = math.NaN() },
		"flow beyond":      func(p *Problem) { p.Places[0].Flow[0] = math.Inf(1) },
		"prices of a meet": func(p *Problem) { p.Meets = []Meet{{[]int{0, 1}, make([]float64, 99)}} },
		"a meet of none":   func(p *Problem) { p.Meets = []Meet{{}} },
		"meets itself": func(p *Problem) {
			p.Meets = []Meet{{[]int{0, 0}, make([]float64, len(p.Places[0].Options)*len(p.Places[0].Options))}}
		},
		"few flows": func(p *Problem) { p.Places[0].Flow = nil },
	} {
		p := good.Problem
		p.Places = append([]Place(nil), good.Places...)
		for i := range p.Places {
			p.Places[i].Options = append([]Option(nil), p.Places[i].Options...)
			p.Places[i].Flow = append([]float64(nil), p.Places[i].Flow...)
		}
		spoil(&p)
		if _, err := p.Solve(t.Context()); err != ErrProblem {
			t.Errorf("%s: %v", name, err)
		}
	}
}
