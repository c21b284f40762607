package catalog

import (
	"math"
	"testing"

	"dropleg/engine/unit"
)

// TestFillers holds the tables against the space that they fill: a ring of the tube's own
// outside diameter and the depth of the fitting's cup (our take-outs, ASME B16.18), 0.010 in
// wide, of 95-5 of 7250 kg/m³ (density from memory). The tables' own weights come of 7360
// kg/m³, so that they agree to 2 %.
func TestFillers(t *testing.T) {
	const (
		clearance = 0.010 * 0.0254
		density   = 7250.0
	)
	stock, ok := Builtin().Stock("copper-l")
	if !ok {
		t.Fatal("no copper tube")
	}
	seen := 0
	for _, name := range []string{"1/4", "3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2"} {
		size, ok := stock.Size(name)
		end, found := Builtin().TakeOut("copper-solder", "elbow-90", name)
		if !ok || !found || end.Size == "*" {
			continue
		}
		seen++
		f, ok := FillerOf(size.Outside)
		want := math.Pi * float64(size.Outside) * float64(end.Insert) * clearance * density
		if !ok || math.Abs(float64(f.Solder)-want) > 0.025*want {
			t.Errorf("%s: %.3g g of solder, the ring takes %.3g g", name, 1000*f.Solder, 1000*want)
		}
		if f.Braze <= 0 || f.Braze >= f.Solder {
			t.Errorf("%s: %.3g g of rod", name, 1000*f.Braze)
		}
	}
	if seen < 6 {
		t.Errorf("%d sizes looked at", seen)
	}
	last := Filler{}
	for mm := 4.0; mm < 79; mm += 0.5 {
		f, ok := FillerOf(unit.Length(mm / 1000))
		if !ok || f.Solder < last.Solder || f.Braze < last.Braze {
			t.Fatalf("%g mm: %+v after %+v", mm, f, last)
		}
		last = f
	}
	for _, none := range []unit.Length{0, -1, 0.2, unit.Length(math.NaN())} {
		if _, ok := FillerOf(none); ok {
			t.Errorf("%v takes something", none)
		}
	}
}
