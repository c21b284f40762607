package purchase_test

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/job"
)

func to[T any](x T) *T { return &x }

// TestRulesOfCutting: a stick is its trim, its pieces with a kerf between each two, and what
// is left (less a kerf where that is cut off); only what is as long as the rule says is kept. By arithmetic.
func TestRulesOfCutting(t *testing.T) {
	for _, r := range []job.Rules{
		{},
		{StickKerf: to(unit.Length(0.005)), EndTrim: to(unit.Length(0.02)), LeastRest: to(unit.Length(1.5))},
	} {
		j := opened(t, "boat-shop")
		j.Rules.StickKerf, j.Rules.EndTrim, j.Rules.LeastRest = r.StickKerf, r.EndTrim, r.LeastRest
		kerf, trim, rest := float64(j.RuleStickKerf().Value), float64(j.RuleEndTrim().Value), float64(j.RuleLeastRest().Value)
		bars := 0
		for _, p := range of(t, j).Plans {
			if math.Abs(float64(p.Kerf)-kerf) > 1e-9 {
				t.Fatalf("kerf %v, want %g", p.Kerf, kerf)
			}
			for _, b := range p.Bars {
				bars++
				left := float64(b.Length) - trim
				for _, c := range b.Cuts {
					left -= float64(c.Length)
				}
				between := left - kerf*float64(len(b.Cuts)-1)
				open := float64(b.Open)
				if math.Abs(open-between) > 1e-6 && math.Abs(open-max(0, between-kerf)) > 1e-6 {
					t.Errorf("%s: %g m are left, want %g less at most one kerf of %g", p.Article, open, between, kerf)
				}
				if (b.Name != "") != (open >= rest) {
					t.Errorf("%s: %g m are named %q; from %g they are kept", p.Article, open, b.Name, rest)
				}
			}
		}
		if bars == 0 {
			t.Error("nothing is cut")
		}
	}
}

// TestSpare: a share on top of fittings and of clips, rounded up to whole ones, and on top
// of nothing else; no amount is without its stage. By arithmetic.
func TestSpare(t *testing.T) {
	plain := of(t, opened(t, "boat-shop"))
	j := opened(t, "boat-shop")
	j.Rules.SpareFittings, j.Rules.SpareClips = to(unit.Ratio(0.25)), to(unit.Ratio(0.1))
	more := of(t, j)
	if len(more.Needs) != len(plain.Needs) {
		t.Fatalf("%d articles, %d without spares", len(more.Needs), len(plain.Needs))
	}
	for i, n := range more.Needs {
		share := map[parts.Group]float64{parts.Fitting: 0.25, purchase.Clips: 0.1}[n.Group]
		want := math.Ceil(plain.Needs[i].Amount*share - 1e-9)
		if n.Spare != want || math.Abs(n.Amount-plain.Needs[i].Amount-want) > 1e-9 {
			t.Errorf("%s: %g of %g are spare, want %g on top of %g", n.Article, n.Spare, n.Amount, want, plain.Needs[i].Amount)
		}
		sum := 0.0
		for _, x := range n.Stages {
			sum += x
		}
		if math.Abs(sum-n.Amount) > 1e-6 && !n.Metres {
			t.Errorf("%s: %g over the stages, %g altogether", n.Article, sum, n.Amount)
		}
	}
	if !strings.Contains(strings.Join(plain.Supposed, "\n"), "a saw cut takes 2 mm") {
		t.Errorf("the customs are not told: %q", plain.Supposed)
	}
}
