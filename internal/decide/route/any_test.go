package route

import (
	"context"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// anyShop draws rooms, doors, what stands about, a compressor and outlets by chance.
func anyShop(t *rapid.T) *shop {
	s := newShop(&testing.T{})
	wide, deep := rapid.Float64Range(3, 25).Draw(t, "wide"), rapid.Float64Range(3, 20).Draw(t, "deep")
	high := rapid.Float64Range(2.5, 7).Draw(t, "high")
	outline := []geom.Flat{{0, 0}, {wide, 0}, {wide, deep}, {0, deep}}
	if rapid.Bool().Draw(t, "ell") {
		outline = []geom.Flat{{0, 0}, {wide, 0}, {wide, deep / 2}, {wide / 2, deep / 2}, {wide / 2, deep}, {0, deep}}
	}
	s.room("Shop", high, outline...)
	for range rapid.IntRange(0, 2).Draw(t, "doors") {
		s.try(&fit.Opening{
			Wall: rapid.SampledFrom(s.job.Building.Walls).Draw(t, "wall").ID, Kind: "door",
			Along: unit.Length(rapid.Float64Range(0.2, wide).Draw(t, "along")), Width: 1, Height: unit.Length(rapid.Float64Range(2, high).Draw(t, "head")),
		})
	}
	for k := range rapid.IntRange(0, 3).Draw(t, "things") {
		x, y := rapid.Float64Range(0, wide-1).Draw(t, "x"), rapid.Float64Range(0, deep-1).Draw(t, "y")
		kind := rapid.SampledFrom([]string{"post", "beam", "bench", "lift", "electrical", "keep-out"}).Draw(t, "kind")
		low := rapid.SampledFrom([]float64{0, high - 0.5}).Draw(t, "low")
		s.obstacle(kind, strings.Repeat("x", k+1), low, low+rapid.Float64Range(0.3, high-low).Draw(t, "tall"), geom.Flat{x, y}, geom.Flat{x + rapid.Float64Range(0.2, 3).Draw(t, "w"), y + rapid.Float64Range(0.2, 3).Draw(t, "d")})
	}
	place := func(name string) geom.Point {
		x, y := rapid.Float64Range(0.1, wide-0.1).Draw(t, name+" x"), rapid.Float64Range(0.1, deep-0.1).Draw(t, name+" y")
		switch rapid.IntRange(0, 4).Draw(t, name+" at") {
		case 0:
			y = 0.08
		case 1:
			x = 0.08
		case 2:
			y = deep - 0.08
		case 3:
			x = wide - 0.08
		}
		return geom.Point{x, y, rapid.SampledFrom([]float64{1.1, 1.1, 0.9, high - 0.3, high / 2}).Draw(t, name+" z")}
	}
	s.compressor(place("compressor"))
	for k := range rapid.IntRange(1, 6).Draw(t, "outlets") {
		s.outlet(strings.Repeat("I", k+1), place("outlet"))
	}
	return s
}

// TestAnyShop: whatever the shop is like, either lines are laid, and then every outlet has
// its air and the job is valid, or it is said in words what stands in the way.
func TestAnyShop(t *testing.T) {
	shops, laidOnes, undrawn := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyShop(t)
		shops++
		w := Wish{Stock: rapid.SampledFrom([]string{"aluminium-metric", "pe-al-pe-metric", "copper-l"}).Draw(t, "stock"), Ring: true}
		if rapid.Bool().Draw(t, "ceiling") {
			w.Over = []string{Ceiling, Beams}
		}
		laid, err := Propose(context.Background(), s.study(), w, nil)
		if err != nil {
			switch code := codeOf(err); {
			case code == "not-drawn":
				undrawn++
			case !slices.Contains([]string{"no-way", "outside", "no-plant"}, code):
				t.Fatalf("%s: %v %v", code, titles(err), err)
			}
			return
		}
		laidOnes++
		for _, p := range laid {
			after, _, err := p.Edit.Apply(s.job)
			if err != nil {
				t.Fatal(err)
			}
			if found := job.Validate(after, catalog.Builtin()); !job.Usable(found) {
				t.Fatalf("%v", found)
			}
			if n := netOf(job.NewIndex(after), s.shelf); len(n.feet()) > 0 {
				t.Fatalf("no air at %v", n.feet())
			}
		}
	})
	if 2*laidOnes < shops || 10*undrawn > laidOnes {
		t.Errorf("of %d shops lines were laid in %d, and a way found but not drawn in %d", shops, laidOnes, undrawn)
	}
}
