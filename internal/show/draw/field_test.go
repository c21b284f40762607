package draw

import (
	"math"
	"testing"

	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

func TestStretch(t *testing.T) {
	b := box{0, 0, 10, 10}
	for _, c := range []struct {
		p, q scene.Point
		want float64
	}{
		{scene.Point{-5, 5}, scene.Point{15, 5}, 10},
		{scene.Point{2, 2}, scene.Point{2, 20}, 8},
		{scene.Point{-5, 11}, scene.Point{15, 11}, 0},
		{scene.Point{-1, 0}, scene.Point{0, -1}, 0},
		{scene.Point{3, 3}, scene.Point{6, 7}, 5},
		{scene.Point{-10, -10}, scene.Point{20, 20}, 10 * math.Sqrt2},
	} {
		if got := b.stretch(c.p, c.q); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v to %v: %v, want %v", c.p, c.q, got, c.want)
		}
		if got := b.stretch(c.q, c.p); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v to %v: %v, want %v", c.q, c.p, got, c.want)
		}
	}
}

// A label never costs less for more being on the paper.
func TestCostGrows(t *testing.T) {
	number := rapid.Float64Range(-50, 50)
	rapid.Check(t, func(t *rapid.T) {
		f := field{sheet: box{-40, -40, 40, 40}}
		b := around(number.Draw(t, "x"), number.Draw(t, "y"), 12, 4)
		before := f.cost(b)
		f.take(around(number.Draw(t, "u"), number.Draw(t, "v"), 8, 8))
		f.draw(scene.Point{number.Draw(t, "a"), number.Draw(t, "b")}, scene.Point{number.Draw(t, "c"), number.Draw(t, "d")}, 0.5, 3)
		if f.cost(b) < before {
			t.Fatalf("cost fell from %v to %v", before, f.cost(b))
		}
	})
}
