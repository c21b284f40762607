package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestMarked: as a tape is read; the inch is 25.4 mm by definition.
func TestMarked(t *testing.T) {
	for _, c := range []struct {
		system System
		metres float64
		want   string
	}{
		{Metric, 7.1588, "7159 mm"},
		{Metric, 0.0904, "90 mm"},
		{US, 0.3048, "12 in"},
		{US, 0.4889, "19 1/4 in"},
		{US, 7.1628, "23 ft 6 in"},
		{US, 0.6096 + 0.0254*3 + 0.0254*5/16, "2 ft 3 5/16 in"},
		{US, 0.0254 / 2, "1/2 in"},
		{US, 0, "0 in"},
		{US, 6.0959, "20 ft 0 in"},
	} {
		if got := c.system.Marked(Length(c.metres)); got != c.want {
			t.Errorf("%g m in %s: %q, want %q", c.metres, c.system, got, c.want)
		}
	}
}

// TestMarkedReadsBack: what is printed is read as what was meant, to half a mark.
func TestMarkedReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		x := rapid.Float64Range(0.001, 60).Draw(r, "metres")
		for _, s := range []System{US, Metric} {
			got, err := Parse(s.Marked(Length(x)), KindLength, Env{})
			if err != nil || math.Abs(got-x) > 0.0254/32+1e-9 {
				r.Fatalf("%s: %q read as %g (%v), was %g", s, s.Marked(Length(x)), got, err, x)
			}
		}
	})
}
