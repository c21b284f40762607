package draw

import (
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

// The bands hold every pressure they were laid over, and cut a run into parts
// that join, run from its start, and lie in the bands of their ends.
func TestRampCutsRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pressures := rapid.SliceOfN(rapid.Float64Range(0, 20e5), 2, 20).Draw(t, "pressures")
		system := rapid.SampledFrom(unit.Systems()).Draw(t, "system")
		r := newRamp(pressures, system)
		for _, p := range pressures {
			b := r.band(p)
			if high, low := r.Top-float64(b)*r.Step, r.Top-float64(b+1)*r.Step; p > high+1 || p < low-1 {
				t.Fatalf("%v is not within band %d, %v to %v", p, b, low, high)
			}
		}
		p0, p1 := pressures[0], pressures[1]
		at, band := r.cut(p0, p1)
		if len(at) != len(band) || at[0] != 0 {
			t.Fatalf("parts %v, bands %v", at, band)
		}
		if math.Abs(p1-p0) >= 1 && band[len(band)-1] != r.band(p1) {
			t.Fatalf("ends in band %d, want %d", band[len(band)-1], r.band(p1))
		}
		for i := 1; i < len(at); i++ {
			if at[i] < at[i-1] || at[i] > 1 {
				t.Fatalf("parts out of order: %v", at)
			}
		}
	})
}

func TestBetweenKeepsLength(t *testing.T) {
	line := []scene.Point{{0, 0}, {3, 0}, {3, 4}, {3, 4}, {10, 4}}
	length := func(l []scene.Point) float64 {
		sum := 0.0
		for i := 1; i < len(l); i++ {
			sum += math.Hypot(l[i][0]-l[i-1][0], l[i][1]-l[i-1][1])
		}
		return sum
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0, 1).Draw(t, "a"), rapid.Float64Range(0, 1).Draw(t, "b")
		a, b = min(a, b), max(a, b)
		if got, want := length(between(line, a, b)), (b-a)*length(line); math.Abs(got-want) > 1e-9 {
			t.Fatalf("from %v to %v: %v, want %v", a, b, got, want)
		}
	})
}

// A shop that loses next to nothing is not painted in all colours.
func TestSmallLossIsOneBand(t *testing.T) {
	r := newRamp([]float64{7.95e5, 7.85e5}, unit.Metric)
	if a, b := r.band(7.95e5), r.band(7.85e5); a != b {
		t.Errorf("0.1 bar apart, bands %d and %d", a, b)
	}
}
