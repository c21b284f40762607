package cut

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
	"time"
)

// makeHard makes many lengths that differ, out of two sticks: patterns beyond counting.
func makeHard(seed uint64, kinds int) Question {
	r := rand.New(rand.NewPCG(seed, 0x68617264))
	q := Question{Kerf: 30, Stocks: []Stock{{ID: "short", Length: 65_000, Price: 2000}, {ID: "long", Length: 90_000, Price: 2800}}}
	return q.with(distinct(r, kinds, 100, 6000, 1))
}

// TestAskingInPart: where the best patterns are not looked for to the end, the bound stands
// lower, and still no pattern is worth more than it costs.
func TestAskingInPart(t *testing.T) {
	lower := 0
	eachListed(t, 6, func(name string, s *shape, listed root) {
		start, _ := greedy(s)
		for _, steps := range []int{1, 30, 1000} {
			r, err := askRootWithin(context.Background(), s, start, steps)
			if err != nil {
				t.Fatal(err)
			}
			if r.bound > listed.bound+s.fine {
				t.Errorf("%s: bound %d after %d steps, listed %d", name, r.bound/s.fine, steps, listed.bound/s.fine)
			}
			if r.bound < listed.bound-s.fine {
				lower++
			}
			checkWorth(t, s, r.worth)
		}
	})
	if lower == 0 {
		t.Error("every search came to its end")
	}
}

// TestHard: of two hundred lengths that all differ a plan comes within 1 % of a bound, which
// what the pieces take out of the sticks does not contradict.
func TestHard(t *testing.T) {
	q := makeHard(5, 200)
	ctx, stop := context.WithTimeout(context.Background(), 30*time.Second)
	defer stop()
	p, err := Solve(ctx, q, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Bound > p.Price || p.Proven != (p.Bound == p.Price) || float64(p.Price-p.Bound) > 0.01*float64(p.Price) {
		t.Errorf("price %d, bound %d, proven %v", p.Price, p.Bound, p.Proven)
	}
	s := shapeOf(q)
	if m := material(s); p.Bound < s.raise(m.bound) {
		t.Errorf("bound %d is below that of the material, %d", p.Bound, s.raise(m.bound))
	}
	cuts := 0
	for _, b := range p.Bars {
		cuts += len(b.Cuts)
	}
	if cuts != 200 {
		t.Errorf("%d of 200 pieces are cut", cuts)
	}
}

// TestDeepIsGivenUp: a search that would hold more than it may ends, and settles nothing.
func TestDeepIsGivenUp(t *testing.T) {
	s := shapeOf(makeHard(1, 40))
	start, _ := greedy(s)
	some := &pool{}
	for _, l := range start {
		some.add(l)
	}
	f := &search{relaxation: relax(context.Background(), s, some), cutoff: s.limit, trials: 1}
	if _, err := f.open(); err != nil {
		t.Fatal(err)
	}
	if err := f.branch(holdMost/f.held() + 1); !errors.Is(err, errDeep) || f.best != nil {
		t.Errorf("%v, %v", err, f.best)
	}
	if err := f.branch(0); errors.Is(err, errDeep) {
		t.Error("given up at once")
	}
}
