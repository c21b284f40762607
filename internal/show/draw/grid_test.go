package draw

import (
	"math"
	"testing"

	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

// A field asks its grid what lies near; it must tell what one finds that weighs
// against everything, wherever things lie and however often they were moved.
func TestFieldFindsWhatIsThere(t *testing.T) {
	number := rapid.Float64Range(-80, 160)
	place := rapid.Custom(func(t *rapid.T) scene.Point { return scene.Point{number.Draw(t, "x"), number.Draw(t, "y")} })
	rapid.Check(t, func(t *rapid.T) {
		f := field{sheet: box{0, 0, rapid.Float64Range(0, 120).Draw(t, "wide"), 80}}
		aBox := func() box {
			c := place.Draw(t, "box")
			return around(c[0], c[1], rapid.Float64Range(0, 40).Draw(t, "w"), 5)
		}
		aStroke := func() stroke {
			return stroke{place.Draw(t, "p"), place.Draw(t, "q"), rapid.Float64Range(0, 2).Draw(t, "half"), rapid.Float64Range(1, 6).Draw(t, "weight")}
		}
		for range rapid.IntRange(0, 12).Draw(t, "things") {
			f.take(aBox())
			s := aStroke()
			f.draw(s.p, s.q, s.half, s.weight)
		}
		for range rapid.IntRange(0, 8).Draw(t, "moves") {
			if len(f.boxes) == 0 {
				break
			}
			i := rapid.IntRange(0, len(f.boxes)-1).Draw(t, "which")
			b, s := box{}, stroke{}
			if rapid.Bool().Draw(t, "stays") {
				b, s = aBox(), aStroke()
			}
			f.move(i, b)
			f.redraw(i, s)
		}
		b, p, q := aBox(), place.Draw(t, "from"), place.Draw(t, "to")
		cost, cuts := 0.0, 0.0
		for _, o := range f.boxes {
			cost += 10 * b.overlap(o)
		}
		for _, s := range f.strokes {
			cost += s.weight * b.grown(s.half).stretch(s.p, s.q)
			if s.weight >= leaderMinds && cross(p, q, s.p, s.q) {
				cuts++
			}
		}
		cost += 6 * ((b.x1-b.x0)*(b.y1-b.y0) - b.overlap(f.sheet))
		if got := f.cost(b); got != cost {
			t.Errorf("cost %v, want %v", got, cost)
		}
		if got := f.crossings(p, q); got != cuts {
			t.Errorf("%v crossings, want %v", got, cuts)
		}
		if most := rapid.Float64Range(0, 2000).Draw(t, "most"); cost <= most {
			if got := f.costUpTo(b, most); got != cost {
				t.Errorf("cost up to %v is %v, want %v", most, got, cost)
			}
		} else if got := f.costUpTo(b, most); !(got > most) {
			t.Errorf("cost up to %v is %v, yet it is %v", most, got, cost)
		}
	})
}

// What is no number lies somewhere on the grid and breaks nothing.
func TestGridTakesAnything(t *testing.T) {
	f := field{sheet: box{0, 0, 100, 100}}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300} {
		f.take(box{x, 0, x, 5})
		f.draw(scene.Point{x, 0}, scene.Point{5, x}, 1, 5)
		f.cost(box{0, x, 3, x})
		f.crossings(scene.Point{x, 1}, scene.Point{2, x})
	}
}
