package start_test

import (
	"context"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/decide/plan"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
)

// A long unheated hall of lines that grow: in the sizes that were picked, nothing that was laid
// is left with growth and no place for it.
func TestLongHallGivesWay(t *testing.T) {
	cold := unit.Celsius(-10)
	for _, c := range []struct {
		stock string
		long  unit.Length
	}{{"aluminium-metric", 60}, {"aluminium-metric", 100}, {"pe-al-pe-metric", 60}} {
		p, err := start.Of(context.Background(), start.Answers{
			Room:   start.Room{Width: c.long, Depth: 18, Height: 5, Climate: "unheated", Cold: &cold, Doors: []start.Door{{Wall: "south", Kind: "gate"}}},
			Spread: 12, Stock: c.stock,
			Tools: []start.Tool{tool("impact-wrench-1/2", 3), tool("die-grinder", 2), tool("blow-gun", 3), tool("da-sander-6", 1)},
		}, catalog.Builtin(), func(string, int, int) {})
		if err != nil {
			t.Fatal(err)
		}
		s := hold(t, p)
		pent, err := plan.Amiss(t.Context(), s)
		if err != nil || pent > 0 {
			held, _ := s.Hold(t.Context())
			t.Errorf("%s, %v m: %.2f mm lack room (%v): %+v", c.stock, c.long, 1e3*pent, err, held.Held)
		}
	}
}
