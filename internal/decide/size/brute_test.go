package size

import (
	"math"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// All selections of a few choices of the boat shop are counted out, each solved by the
// network with flows that follow pressure: none that holds is cheaper than the bound, and
// the proposal is the cheapest of them. Where choices touch each other, at prices invented for
// all that may come up, selections with a line wider than the one before it do not count.
func TestCountedOut(t *testing.T) {
	raw, _ := example.Read("boat-shop")
	j, bad := job.Parse(raw)
	if j == nil {
		t.Fatal(bad)
	}
	dear, _ := job.Parse(raw)
	priced := told(t, dear)
	for n, only := range [][]job.ID{
		{"hose.far-bench", "hose.reel", "line.main-7"},
		{"hose.far-bench", "line.drop-far-1", "line.reel-1", "hose.saw"},
		{"line.main-1", "hose.far-bench", "outlet.far-bench"},
		{"line.main-6", "line.main-7", "hose.far-bench"},
		{"line.main-5", "line.main-6", "hose.far-bench"},
	} {
		s := study.Of(j, catalog.Builtin())
		if n > 2 {
			s = priced
		}
		p, err := Propose(t.Context(), s, Wish{Only: only}, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, err := newWork(t.Context(), s, Wish{Only: only})
		if err != nil {
			t.Fatal(err)
		}
		least, held := math.Inf(1), 0
		picks, f := make([]int, len(w.choices)), w.frame()
		var walk func(i int)
		walk = func(i int) {
			if i < len(picks) {
				for k := range w.choices[i].options {
					picks[i] = k
					walk(i + 1)
				}
				return
			}
			if !f.narrows(picks) {
				return
			}
			after, err := w.after(picks)
			if err != nil {
				t.Fatal(err)
			}
			v, err := w.verify(t.Context(), after, picks)
			if err != nil {
				t.Fatal(err)
			}
			if len(v.lacks) == 0 && len(v.fast) == 0 {
				least = min(least, w.total(picks))
				held++
			}
		}
		walk(0)
		t.Logf("%v: %d hold, the least is %v; proposed %v, bound %v", only, held, least, p[0].Price, p[0].Bound)
		if p[0].Bound > least+1e-6 || math.Abs(p[0].Price-least) > 1e-6 {
			t.Errorf("%v: proposed %v, bound %v; the least that holds is %v", only, p[0].Price, p[0].Bound, least)
		}
	}
}

// The lines of a ring have one size: each of them is tried, alone and with each hose, and
// the proposal is the cheapest that holds.
func TestRingCountedOut(t *testing.T) {
	for _, drops := range []int{3, 6} {
		j := shoptest.Ring(drops)
		var only []job.ID
		for i := range j.Net.Runs {
			if j.Net.Runs[i].Role == "ring" {
				only = append(only, j.Net.Runs[i].ID)
			}
		}
		only = append(only, "hose.2")
		s := study.Of(j, catalog.Builtin())
		p, err := Propose(t.Context(), s, Wish{Only: only}, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, err := newWork(t.Context(), s, Wish{Only: only})
		if err != nil {
			t.Fatal(err)
		}
		hose := w.choiceWith["hose.2"]
		least := math.Inf(1)
		for k := range w.rungs {
			for h := range w.choices[hose].options {
				picks := make([]int, len(w.choices))
				for i, c := range w.choices {
					if picks[i] = min(k, len(c.options)-1); i == hose {
						picks[i] = h
					}
				}
				after, err := w.after(picks)
				if err != nil {
					t.Fatal(err)
				}
				v, err := w.verify(t.Context(), after, picks)
				if err != nil {
					t.Fatal(err)
				}
				if len(v.lacks) == 0 && len(v.fast) == 0 {
					least = min(least, w.total(picks))
				}
			}
		}
		t.Logf("%d drops: the least is %v; proposed %v, bound %v", drops, least, p[0].Price, p[0].Bound)
		if p[0].Bound > least+1e-6 || math.Abs(p[0].Price-least) > 1e-6 {
			t.Errorf("%d drops: proposed %v, bound %v; the least that holds is %v", drops, p[0].Price, p[0].Bound, least)
		}
	}
}
