package draw

import (
	"fmt"
	"math"
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
