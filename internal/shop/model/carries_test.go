package model

import (
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
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
		if got := float64(Carries(row, c.in, atm)); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %v, by hand %v", c.in, got, c.want)
		}
	}
	if got := float64(Carries(row, 300e3, atm)); math.Abs(got-0.006065) > 1e-6 {
		t.Errorf("%v", got)
	}
}
