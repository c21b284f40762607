package purchase_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func opened(t testing.TB, name string) *job.Job {
	t.Helper()
	raw, _ := example.Read(name)
	j, bad := job.Parse(raw)
	if j == nil {
		t.Fatal(bad)
	}
	return j
}

func of(t rapid.TB, j *job.Job) *purchase.Answer {
	t.Helper()
	shelf, _ := catalog.Builtin().With(j.Catalogue)
	a, err := purchase.Of(context.Background(), j, shelf, parts.Of(j, shelf), hold.Of(j, shelf, nil))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestBasketCoversTheNeed: counted from the offers bought, each article is there as often
// as it is needed; what a length is bought for, is cut from it.
func TestBasketCoversTheNeed(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage"} {
		a := of(t, opened(t, name))
		if a.Basket == nil || !a.Basket.Proven || len(a.Unsold) > 0 {
			t.Fatalf("%s: basket %+v, on no list %v", name, a.Basket, a.Unsold)
		}
		got := map[string]float64{}
		sum := int64(0)
		for _, l := range a.Basket.Lines {
			sum += int64(l.Cost)
			for _, h := range l.Holds {
				got[parts.Fold(h.Article)] += h.Number * float64(l.Times)
			}
		}
		for _, d := range a.Basket.Deliveries {
			sum += int64(d.Charge)
		}
		if sum != int64(a.Basket.Price) {
			t.Errorf("%s: lines and deliveries come to %d, told %d", name, sum, a.Basket.Price)
		}
		for _, n := range a.Needs {
			folded := parts.Fold(n.Article)
			have := n.Drawer + got[folded]
			for _, alias := range []string{"copper-l ", "pe-al-pe-metric "} {
				if short := strings.TrimPrefix(folded, alias); short != folded {
					have += got[short]
				}
			}
			if have < n.Amount-1e-9 {
				t.Errorf("%s: %g of %s needed, %g there", name, n.Amount, n.Article, have)
			}
		}
	}
}

// TestCutsClose: every planned piece is cut once, and each length is the sum of its cuts,
// a saw's width between them and what is left.
func TestCutsClose(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main", "ailing"} {
		j := opened(t, name)
		take := parts.Of(j, catalog.Builtin())
		want := map[string]float64{}
		for _, p := range take.Pieces {
			if p.State == parts.Planned && p.Cut != nil && *p.Cut > 0 {
				want[p.ID] = float64(*p.Cut + p.Allowance)
			}
		}
		for _, plan := range of(t, j).Plans {
			for n, b := range plan.Bars {
				used := float64(b.Open)
				for _, c := range b.Cuts {
					used += float64(c.Length)
					if math.Abs(float64(c.Length)-want[c.Piece]) > 1.01e-4 {
						t.Errorf("%s: %s cut to %g, wanted %g", name, c.Piece, float64(c.Length), want[c.Piece])
					}
					delete(want, c.Piece)
				}
				gap := float64(b.Length) - used
				if most := float64(len(b.Cuts)) * float64(plan.Kerf); gap < -1e-9 || gap > most+1e-9 {
					t.Errorf("%s, %s, length %d: %g m are lost, %d cuts of %g m", name, plan.Article, n+1, gap, len(b.Cuts), float64(plan.Kerf))
				}
			}
		}
		for id := range want {
			t.Errorf("%s: %s is not cut", name, id)
		}
	}
}

// TestPriceNeverRises: one more offer is never dearer, and one supplier alone is never cheaper.
func TestPriceNeverRises(t *testing.T) {
	all := opened(t, "boat-shop")
	rapid.Check(t, func(r *rapid.T) {
		j := *all
		j.Prices.Offers = nil
		out := rapid.IntRange(0, len(all.Prices.Offers)-1).Draw(r, "left out")
		for i, o := range all.Prices.Offers {
			if i != out {
				j.Prices.Offers = append(j.Prices.Offers, o)
			}
		}
		less, more := of(r, &j), of(r, all)
		if len(less.Unsold) == 0 && more.Basket.Price > less.Basket.Price {
			r.Fatalf("without %s it costs %d, with it %d", all.Prices.Offers[out].ID, less.Basket.Price, more.Basket.Price)
		}
		for _, one := range more.Alone {
			if one.Price < more.Basket.Price {
				r.Fatalf("all from %s costs %d, the cheapest %d", one.Supplier, one.Price, more.Basket.Price)
			}
		}
	})
}

// TestDrawerIsUsed: what lies in the drawer is not bought, a length of line there is cut.
func TestDrawerIsUsed(t *testing.T) {
	j := opened(t, "frame-garage")
	before := of(t, j)
	j.Prices.Drawer = append(slices.Clone(j.Prices.Drawer), job.Amount{Article: "pe-al-pe-metric 20", Number: 40}, job.Amount{Article: "drain-cock 20", Number: 4})
	after := of(t, j)
	if after.Basket.Price >= before.Basket.Price {
		t.Errorf("with a coil and drain cocks in the drawer it costs %v, without %v", after.Basket.Price, before.Basket.Price)
	}
	if p := after.Plans[0]; len(p.Bars) != 1 || p.Bars[0].From != "drawer" || p.Bought != 0 {
		t.Errorf("the coil in the drawer is not cut: %+v", p)
	}
}

// TestPieceLongerThanAnyLength: it is told which, and how far a joint may be.
func TestPieceLongerThanAnyLength(t *testing.T) {
	j := opened(t, "frame-garage")
	j.Prices.Offers = []job.Offer{{ID: "offer.short", Supplier: "a", Price: 10, Holds: []job.Amount{{Article: "pe-al-pe-metric 20", Number: 2}}}}
	j.Prices.List = nil
	a := of(t, j)
	if len(a.Plans) != 1 || a.Plans[0].Untold == "" || len(a.Plans[0].Long) == 0 || a.Plans[0].Long[0].Fits != 2 {
		t.Errorf("plans %+v", a.Plans)
	}
}

func BenchmarkPurchase(b *testing.B) {
	for _, name := range []string{"frame-garage", "boat-shop", "ring-main"} {
		j := opened(b, name)
		shelf := catalog.Builtin()
		take, held := parts.Of(j, shelf), hold.Of(j, shelf, nil)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := purchase.Of(context.Background(), j, shelf, take, held); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestTooLongIsTold: a line that is sold only in lengths shorter than its pieces is told with
// its pieces and where joints may be, and is not taken for bought.
func TestTooLongIsTold(t *testing.T) {
	j := opened(t, "boat-shop")
	const article = "copper-l 1"
	j.Prices.List = slices.DeleteFunc(j.Prices.List, func(p job.Price) bool { return p.Article == article })
	j.Prices.Offers = slices.DeleteFunc(j.Prices.Offers, func(o job.Offer) bool {
		return slices.ContainsFunc(o.Holds, func(h job.Amount) bool { return h.Article == article })
	})
	j.Prices.Offers = append(j.Prices.Offers, job.Offer{ID: "offer.short", Supplier: "S", Words: "1 in, 1 m", Price: 5, Holds: []job.Amount{{Article: article, Number: 1}}})
	a := of(t, j)
	if !slices.Equal(a.Uncut, []string{article}) || len(a.Unsold) != 0 {
		t.Fatalf("comes out of no length: %q, on no list: %q", a.Uncut, a.Unsold)
	}
	for i := range a.Plans {
		p := &a.Plans[i]
		if (p.Article == article) != (len(p.Long) > 0) {
			t.Errorf("%s: %+v", p.Article, p.Long)
		}
		for _, l := range p.Long {
			if l.Fits > 1 || l.Length <= l.Fits || float64(l.Joints+1)*float64(l.Fits) < float64(l.Length) || float64(l.Joints)*float64(l.Fits) >= float64(l.Length) {
				t.Errorf("%+v", l)
			}
		}
	}
}
