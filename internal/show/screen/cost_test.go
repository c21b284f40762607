package screen

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
)

// The sentence's figures are those of the year, to the two digits that it gives; the rows
// come in the order of what they save, and the best named is the first of the year's own.
func TestCostSaysWhatTheStudySays(t *testing.T) {
	for _, e := range example.All() {
		s := exampleShop(t, e.Name)
		a, err := s.study.Energy(t.Context())
		if err != nil || a.Untold != "" {
			t.Fatal(e.Name, err, a.Untold)
		}
		c, err := s.Cost(t.Context(), Ask{})
		whole(t, e.Name, c, err)
		var all, low, high float64
		if _, err := fmt.Sscanf(c.Sentence, "About %g kWh a year (%g to %g)", &all, &low, &high); err != nil {
			t.Fatalf("%q: %v", c.Sentence, err)
		}
		for _, f := range []struct {
			got  float64
			want unit.Energy
		}{{all, a.All.Energy}, {low, a.All.Low}, {high, a.All.High}} {
			if want := float64(f.want) / 3.6e6; math.Abs(f.got/want-1) > 0.051 {
				t.Errorf("%s: %g kWh, want %g", e.Name, f.got, want)
			}
		}
		if (a.Price == nil) != (c.Compressors[0].Money == "") {
			t.Errorf("%s: money %q, price %v", e.Name, c.Compressors[0].Money, a.Price)
		}
		if len(c.Measures) != len(a.Measures) || len(c.Leaks) != len(a.Holes) || len(c.Compressors) != len(a.Machines) {
			t.Errorf("%s: rows are missing", e.Name)
		}
		last, best := math.Inf(1), ""
		for _, m := range c.Measures {
			x := kilowattHours(t, m.Electricity)
			if x > last {
				t.Errorf("%s: %s saves %g, after %g", e.Name, m.What, x, last)
			}
			last = x
			share := 0.0
			if _, err := fmt.Sscanf(m.Share, "%g %%", &share); err != nil || math.Abs(share-100*x/(float64(a.All.Energy)/3.6e6)) > 0.6 {
				t.Errorf("%s: %s of %g kWh is told as %q", e.Name, m.What, x, m.Share)
			}
			if m.What != overNight && best == "" {
				best = m.Words
			}
			if on := strings.Contains(m.Share, "on top"); on != (m.What == overNight) {
				t.Errorf("%s: %s is told as %q", e.Name, m.What, m.Share)
			}
		}
		if _, words, found := strings.Cut(strings.ToLower(best), ": "); found {
			best = words
		}
		if best != "" && !strings.Contains(strings.ToLower(c.Sentence), strings.ToLower(best)) {
			t.Errorf("%s: %q does not name %q", e.Name, c.Sentence, best)
		}
	}
}

func kilowattHours(t *testing.T, text string) float64 {
	t.Helper()
	var x float64
	if _, err := fmt.Sscanf(text, "%g kWh", &x); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return x
}

func TestRoughly(t *testing.T) {
	for x, want := range map[float64]float64{0: 0, 9231: 9200, 71045: 71000, 0.1449: 0.14, 99.6: 100, -1234: -1200} {
		if got := roughly(x); math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("%g: %g, want %g", x, got, want)
		}
	}
}
