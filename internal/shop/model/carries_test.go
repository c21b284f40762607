package model

import (
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// At the pressure that it is rated at a part carries its rated flow for its loaded loss. At
// half of it the same loss drives, by hand: 2 Δp (p - Δp/2) of 600 kPa and 30 kPa against that
// of 300 kPa is 0.487; ½ μ² + ½ μ = 0.487 gives μ = 0.6065.
func TestCarries(t *testing.T) {
	const atm = unit.AbsPressure(100e3)
	row := catalog.Treat{RatedFlow: 0.01, RatedAt: 500e3, Clean: 10e3, Loaded: 30e3}
	for _, c := range []struct {
		in   unit.AbsPressure
		want float64
	}{{600e3, 0.01}, {300e3, (-1 + math.Sqrt(1+8*(300-15)/(600-15.))) / 2 * 0.01}, {20e3, 0}} {
		if got := float64(Carries(catalog.Kind{}, row, c.in, atm)); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %v, by hand %v", c.in, got, c.want)
		}
	}
	if got := float64(Carries(catalog.Kind{}, row, 300e3, atm)); math.Abs(got-0.006065) > 1e-6 {
		t.Errorf("%v", got)
	}
}

// What a part carries is by the loss that a shop is solved with: for every row of the catalogue,
// and where one told no loaded loss.
func TestCarriesByTheLossOfTheShop(t *testing.T) {
	const atm, in = unit.AbsPressure(101325), unit.AbsPressure(400e3)
	shelf, seen := catalog.Builtin(), map[bool]int{}
	for _, row := range shelf.Treatment() {
		kind, ok := shelf.Kind(row.Kind)
		if !ok || kind.Law.Name != "rated-loss" || row.RatedFlow <= 0 || row.Clean <= 0 {
			continue
		}
		seen[kind.Has(catalog.Filters)]++
		for _, told := range []unit.PressureDiff{row.Loaded, 0} {
			row.Loaded = told
			_, loss := new(builder).lossStates(place{part: &job.Part{}, kind: kind}, row)
			at := float64(anyRatedAt + atm)
			if row.RatedAt > 0 {
				at = float64(row.RatedAt.Abs(atm))
			}
			want := (-1 + math.Sqrt(1+8*(float64(in)-loss/2)/(at-loss/2))) / 2 * float64(row.RatedFlow)
			if got := float64(Carries(kind, row, in, atm)); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s, loaded %v: carries %v, by the loss of the shop, %v Pa, %v", row.Item, told, got, loss, want)
			}
		}
	}
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("filters and others seen: %v", seen)
	}
}
