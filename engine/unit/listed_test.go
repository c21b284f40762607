package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestListed: 1 ft is 0.3048 m by definition (nist-sp811); the rest is counting.
func TestListed(t *testing.T) {
	for _, c := range []struct {
		system System
		metres Length
		want   string
	}{
		{US, 7.62, "25 ft"},
		{US, 4.57, "15 ft"}, // 15 ft less 1/13 in
		{US, 29.4587, "96 ft 8 in"},
		{US, 3.048, "10 ft"},
		{US, 2.1876, "7 ft 2-1/8 in"}, // under ten feet to the eighth
		{US, 0.25, "9.84 in"},
		{US, 0, "0 in"},
		{US, -7.62, "-25 ft"},
		{US, Length(math.Inf(1)), "–"},
		{Metric, 29.4587, "29.46 m"},
		{Mixed, 7.62, "7.62 m"},
	} {
		if got := c.system.Listed(c.metres); got != c.want {
			t.Errorf("%s: Listed(%v) = %q, want %q", c.system, c.metres, got, c.want)
		}
	}
}

// TestListedReads: what is listed reads back as the length, to half an inch.
func TestListedReads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := Length(rapid.Float64Range(0.001, 3000).Draw(t, "metres"))
		text := US.Listed(x)
		got, err := Parse(text, KindLength, Env{})
		if err != nil || math.Abs(got-float64(x)) > 0.5001*inch {
			t.Fatalf("Listed(%v) = %q, read back as %v, %v", x, text, got, err)
		}
	})
}
