package day

import (
	"math"
	"testing"
)

// Two regulators that begin to hold are found in a few rows, and the table follows the
// law everywhere, also right at the bends.
func TestTabulateBends(t *testing.T) {
	const low, high = 6.8e5, 9.3e5
	asked := 0
	law := func(p float64) (float64, []float64, bool) {
		asked++
		gentle := 1e-3 * math.Sqrt(p/high)
		first, second := min(p-2e4, 7.43e5), min(p-1e4-3e-8*p*p, 8.07e5)
		return gentle + 4e-9*first + 1e-9*second, []float64{first, second}, true
	}
	table := Tabulate(law, low, high)
	if asked > 40 {
		t.Errorf("the law was asked %d times", asked)
	}
	for i := range 1001 {
		p := low + (high-low)*float64(i)/1000
		out, tools, _ := law(p)
		span := table.span(p, true)
		if span == len(table.Pressure)-1 {
			span--
		}
		if got, _ := table.out(span, p); math.Abs(got-out) > 3*withinFlow*out {
			t.Fatalf("outflow at %.0f Pa: %v, want %v", p, got, out)
		}
		for k, want := range tools {
			if got, _ := table.tool(k, span, p); math.Abs(got-want) > 3*withinPressure {
				t.Fatalf("tool %d at %.0f Pa: %v, want %v", k, p, got, want)
			}
		}
	}
}
