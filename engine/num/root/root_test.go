package root

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestBracketedKnownZeros(t *testing.T) {
	// Zeros by definition of the functions; the last is the constant of Dottie.
	rows := []struct {
		name    string
		f       func(float64) float64
		a, b, x float64
	}{
		{"square root of two", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{"flat on one side", func(x float64) float64 { return math.Max(x-1, 0) - 1e-9 }, -5, 3, 1 + 1e-9},
		{"steep", func(x float64) float64 { return math.Cbrt(x - 0.3) }, -4, 9, 0.3},
		{"cos x = x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"zero at an end", func(x float64) float64 { return x }, 0, 1, 0},
	}
	for _, r := range rows {
		x, err := Bracketed(r.f, r.a, r.b, 0)
		if err != nil || math.Abs(x-r.x) > 1e-14*(1+math.Abs(r.x)) {
			t.Errorf("%s: got %v, %v; want %v", r.name, x, err, r.x)
		}
	}
}

func TestBracketedRefusesEqualSigns(t *testing.T) {
	for _, f := range []func(float64) float64{
		func(x float64) float64 { return x*x + 1 },
		func(float64) float64 { return math.NaN() },
	} {
		if _, err := Bracketed(f, -1, 1, 0); !errors.Is(err, ErrNoSign) {
			t.Errorf("got %v, want ErrNoSign", err)
		}
	}
}

func TestBracketedFindsAnyCubic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.Float64Range(-100, 100).Draw(t, "zero")
		c := rapid.Float64Range(0, 10).Draw(t, "slope")
		f := func(x float64) float64 { return (x - z) * ((x-z)*(x-z) + c) }
		x, err := Bracketed(f, -101, 102, 1e-12)
		if err != nil || math.Abs(x-z) > 1e-4 {
			t.Fatalf("got %v, %v; want %v", x, err, z)
		}
	})
}
