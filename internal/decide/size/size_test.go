package size_test

import (
	"slices"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/decide/size"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func exampleStudy(t testing.TB, name string) *study.Study {
	t.Helper()
	raw, ok := example.Read(name)
	if !ok {
		t.Fatal("no example ", name)
	}
	j, bad := job.Parse(raw)
	if j == nil {
		t.Fatal(bad)
	}
	return study.Of(j, catalog.Builtin())
}

// Each proposal does what it says once its edit is applied and everything is worked out
// afresh: every tool has its least pressure in all sets of the flows. The ailing shop's
// lines have no prices, the frame garage's only in one size.
func TestExamples(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main", "ailing"} {
		s := exampleStudy(t, name)
		all, err := size.Propose(t.Context(), s, size.Wish{}, nil)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, p := range all {
			if !p.Verified || p.Bound > p.Price+1e-9 || p.Proven != (p.Gap() == 0) {
				t.Errorf("%s: verified %v, price %v, bound %v, proven %v", name, p.Verified, p.Price, p.Bound, p.Proven)
			}
			j, _, err := p.Edit.Apply(s.Job())
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			f, err := study.Of(j, catalog.Builtin()).Flow(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range f.Tools {
				if x.Set >= 0 && float64(x.Margin) < float64(j.RuleMargin().Value)-1 {
					t.Errorf("%s: %s has %v to spare", name, x.Tool, x.Margin)
				}
			}
		}
	}
}

// A stock more that the rules allow never makes the cheapest dearer, and its lines come out
// of what is allowed. The prices are invented.
func TestAllowedStock(t *testing.T) {
	s := exampleStudy(t, "frame-garage")
	with := func(edits ...job.Edit) []size.Proposal {
		after, err := s.After(job.AllOf("", edits...))
		if err != nil {
			t.Fatal(err)
		}
		all, err := size.Propose(t.Context(), after, size.Wish{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		return all
	}
	prices := slices.Clone(s.Job().Prices.List)
	for z, each := range map[string]float64{"15": 2, "18": 2.5, "22": 3} {
		prices = append(prices, job.Price{Article: "copper-en1057-thin " + z, Each: each, Per: "m"})
	}
	list := cure.Set("", "prices.list", prices)
	one := with(list, cure.Set("", "rules.allowed_stocks", []string{"pe-al-pe-metric"}))
	two := with(list, cure.Set("", "rules.allowed_stocks", []string{"pe-al-pe-metric", "copper-en1057-thin"}))
	if two[0].Price > one[0].Price+1e-9 {
		t.Errorf("%v with a stock more, %v without", two[0].Price, one[0].Price)
	}
	t.Logf("%v with a stock more, %v without; %s", two[0].Price, one[0].Price, two[0].Words)
}
