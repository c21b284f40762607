package element

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestColebrookRows(t *testing.T) {
	count := 0
	for _, r := range rows(t, "friction.csv") {
		if r.quantity != "Darcy friction factor, Colebrook-White" && r.quantity != "Darcy friction factor, Colebrook" {
			continue
		}
		count++
		got := Colebrook(r.in["Re"], r.in["rel_roughness"])
		if want := r.expected; math.Abs(got-want) > r.relative(t)*want {
			t.Errorf("%s: got %.13g, want %.13g", r.id, got, want)
		}
	}
	if count != 170 {
		t.Errorf("read %d rows, want 170", count)
	}
}

func TestColebrookSolvesItsEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Exp(rapid.Float64Range(math.Log(2000), math.Log(1e9)).Draw(t, "ln Re"))
		rough := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.06)).Draw(t, "rough")
		u := 1 / math.Sqrt(Colebrook(re, rough))
		want := -2 * math.Log10(rough/3.7+2.51/re*u)
		if math.Abs(u-want) > 2e-14*u {
			t.Fatalf("Re %g, rough %g: 1/√f %.16g, equation gives %.16g", re, rough, u, want)
		}
	})
}

func TestFrictionDriveRises(t *testing.T) {
	for _, rough := range []float64{0, 1e-6, 1e-4, 1e-3, 0.01, 0.03, 0.05} {
		w := newFriction(rough)
		last, _ := w.at(1500)
		for re := 1501.0; re < 5000; re++ {
			phi, slope := w.at(re)
			if phi <= last || slope <= 0 {
				t.Fatalf("rough %g: f·Re² does not rise at Re %g", rough, re)
			}
			up, _ := w.at(re + 1e-3)
			down, _ := w.at(re - 1e-3)
			if d := (up - down) / 2e-3; math.Abs(d-slope) > 1e-4*slope && re != laminarEnd && re != turbulentStart {
				t.Fatalf("rough %g, Re %g: slope %g, differences give %g", rough, re, slope, d)
			}
			last = phi
		}
	}
}

func TestCoarseLog(t *testing.T) {
	for x := 1e-9; x < 2; x *= 1.01 {
		if d := coarseLog(x) - math.Log(x); math.Abs(d) > 1e-3 {
			t.Fatalf("off by %g at %g", d, x)
		}
	}
}
