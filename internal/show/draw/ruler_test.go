package draw

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
	"dropleg/internal/show/scene"
)

// Chains add up to their wall, every wall that something is hung by has one, and no two lengths
// of the chains lie on each other, on large and small paper.
func TestChainsAlongWalls(t *testing.T) {
	for _, e := range example.All() {
		for _, units := range []unit.System{unit.Metric, unit.US} {
			given := readings(t, e.Name)
			given.Work = &Work{}
			for _, k := range []float64{10, 20} {
				sheet := Sheet{Width: 273, Height: 140, Scale: k, Units: units}
				p := &planner{given: given, job: given.Index.Job(), sheet: sheet, scale: k}
				p.walls = p.faces()
				low, high := extent(given)
				walls := 0
				for _, along := range p.stations() {
					if len(along) > 0 {
						walls++
					}
				}
				if all := p.rulers(low, low, high); len(all) != walls || walls == 0 {
					t.Errorf("%s: %d chains for %d walls", e.Name, len(all), walls)
				}
				s := Plan(given, sheet).Scene
				apart(t, fmt.Sprint(e.Name, units, k), s, k)
			}
		}
	}
}

// apart says where lengths of the chains lie on each other, by small boxes over them.
func apart(t *testing.T, where string, s scene.Scene, scale float64) {
	t.Helper()
	var all [][]box
	var words []string
	for _, l := range s.Layers {
		for _, it := range l.Items {
			if it.Text == nil || l.ID != "dimensions" {
				continue
			}
			sin, cos := math.Sincos(it.Text.Turn * math.Pi / 180)
			at := scene.Point{it.Text.At[0] * scale, it.Text.At[1] * scale}
			all, words = append(all, slanted(at, scene.Point{cos, sin}, scene.TextWidth(it.Text.Text, it.Text.Size, false), it.Text.Size)), append(words, it.Text.Text)
		}
	}
	if len(all) == 0 {
		t.Errorf("%s: no dimensions", where)
	}
	for i := range all {
		for k := range i {
			for _, a := range all[i] {
				for _, b := range all[k] {
					if in := a.overlap(b); in > 0.1 {
						t.Errorf("%s: %q and %q share %.1f mm²", where, words[i], words[k], in)
					}
				}
			}
		}
	}
}

// What is rounded from the corner adds up: thirds of a metre make one.
func TestChainAddsUp(t *testing.T) {
	s := Sheet{Units: unit.Metric}
	if got := s.between(0, 1.0/3) + " " + s.between(1.0/3, 2.0/3) + " " + s.between(2.0/3, 1); got != "0.33 0.34 0.33" {
		t.Error(got)
	}
	if got := (Sheet{Units: unit.US}).between(0.3048, 1.2192); got != `3'-0"` {
		t.Error(got)
	}
}

// What stands in a chain adds up to the whole of its wall, with nothing left out: of a wall of
// 200 m with places from 0.9 to 40 m apart, and of one of 3 m.
func TestChainsCloseOnTheirWall(t *testing.T) {
	for _, c := range []struct {
		long, scale float64
		at          []float64
	}{
		{200, 5, []float64{6, 13.253, 27.651, 30.957, 70.954, 71.858, 72.752, 80, 97.104, 118.8, 140.506, 178}},
		{3, 50, []float64{0.804, 1.256, 2.404}},
		{3, 20, []float64{0.804, 1.256, 2.404}},
	} {
		p := &planner{sheet: Sheet{Units: unit.Metric}, scale: c.scale}
		var along []station
		for _, at := range c.at {
			along = append(along, station{along: at})
		}
		for _, to := range []scene.Point{{c.long, 0}, {-c.long, 0}, {0, c.long}, {0, -c.long}} {
			w := face{to: to, length: c.long, thick: 0.2, into: scene.Point{-to[1] / c.long, to[0] / c.long}}
			r := p.ruled(w, along, false)
			sum := 0.0
			for _, one := range r.told {
				sum += reading(t, one.text)
			}
			if len(r.told) != len(c.at)+1 || math.Abs(sum-reading(t, r.sum)) > 1e-9 || r.sum != fmt.Sprintf("%.2f", c.long) {
				t.Errorf("%g m at %g: %d stretches of %g, the whole %s", c.long, c.scale, len(r.told), sum, r.sum)
			}
		}
	}
}

func reading(t *testing.T, words string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(words, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Outside of a corner that stands into the room two chains have the same ground, and cross;
// outside of one that does not, each has its own.
func TestChainsAtACorner(t *testing.T) {
	p := &planner{sheet: Sheet{Units: unit.Metric}, scale: 10}
	wall := func(from, to, into scene.Point, long float64) *ruler {
		return p.ruled(face{from: from, to: to, length: long, thick: 0.24, into: into}, []station{{along: 1}}, false)
	}
	north := wall(scene.Point{8, 5}, scene.Point{14, 5}, scene.Point{0, -1}, 6)
	east := wall(scene.Point{8, 9}, scene.Point{8, 5}, scene.Point{-1, 0}, 4)
	far := wall(scene.Point{14, 5}, scene.Point{14, 0}, scene.Point{-1, 0}, 5)
	if !north.crosses(east) || !east.crosses(north) {
		t.Error("two chains in the angle of an L do not cross")
	}
	if north.crosses(far) || far.crosses(north) || east.crosses(far) {
		t.Error("chains on two sides of a room cross")
	}
	east.inside = true
	if north.crosses(east) {
		t.Error("one that stands in the room is crossed outside of it")
	}
}
