package draw

import (
	"math"
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/scene"
)

// strokes1219 are the straight strokes and the arcs of a symbol.
type strokes1219 struct {
	lines   [][2]scene.Point
	circles []float64 // radii of closed circles
	arcs    int       // others
}

func strokesOf(d string) strokes1219 {
	var s strokes1219
	var at, first scene.Point
	half := 0.0 // radius of the half circle drawn by the step before
	to := func(q scene.Point) {
		s.lines = append(s.lines, [2]scene.Point{at, q})
		at = q
	}
	for _, step := range scene.Steps(d) {
		n := step.Numbers
		was := half
		half = 0
		switch step.Letter {
		case 'M', 'L':
			for i := 0; i+1 < len(n); i += 2 {
				if q := (scene.Point{n[i], n[i+1]}); step.Letter == 'M' && i == 0 {
					at, first = q, q
				} else {
					to(q)
				}
			}
		case 'H':
			to(scene.Point{n[0], at[1]})
		case 'V':
			to(scene.Point{at[0], n[0]})
		case 'A':
			q := scene.Point{n[5], n[6]}
			s.arcs++
			if math.Abs(math.Hypot(q[0]-at[0], q[1]-at[1])-2*n[0]) < 1e-9 {
				half = n[0]
			}
			if half > 0 && half == was {
				s.circles, s.arcs, half = append(s.circles, half), s.arcs-2, 0
			}
			at = q
		case 'Z':
			if at != first {
				to(first)
			}
		}
	}
	return s
}

// has says whether a straight stroke joins two places, either way.
func (s *strokes1219) has(a, b scene.Point) bool {
	for _, l := range s.lines {
		if l == [2]scene.Point{a, b} || l == [2]scene.Point{b, a} {
			return true
		}
	}
	return false
}

// The features by which ISO 1219-1 describes its symbols (recalled; the standard was not at hand).
func diamond(s *strokes1219) bool {
	w, n, e, so := scene.Point{-4, 0}, scene.Point{0, 4}, scene.Point{4, 0}, scene.Point{0, -4}
	return s.has(w, n) && s.has(n, e) && s.has(e, so) && s.has(so, w)
}

func squared(s *strokes1219, half float64) bool {
	a, b, c, d := scene.Point{-half, -half}, scene.Point{half, -half}, scene.Point{half, half}, scene.Point{-half, half}
	return s.has(a, b) && s.has(b, c) && s.has(c, d) && s.has(d, a)
}

// dashed is a line across from corner to corner in three pieces.
func dashed(s *strokes1219) bool {
	n := 0
	for _, l := range s.lines {
		if l[0][0] == 0 && l[1][0] == 0 {
			n++
		}
	}
	return n == 3
}

// tips counts arrow heads and triangles: two strokes that leave one place askew, alike to both
// sides of the level.
func tips(s *strokes1219) int {
	n := 0
	for i, a := range s.lines {
		for _, b := range s.lines[:i] {
			for _, pair := range [][2][2]scene.Point{{a, b}, {{a[1], a[0]}, b}, {a, {b[1], b[0]}}, {{a[1], a[0]}, {b[1], b[0]}}} {
				u, v := minus(pair[0][1], pair[0][0]), minus(pair[1][1], pair[1][0])
				if pair[0][0] == pair[1][0] && u[0] == v[0] && u[1] == -v[1] && u[0]*u[1] != 0 {
					n++
				}
			}
		}
	}
	return n
}

// twoTriangles stand point to point.
func twoTriangles(s *strokes1219) bool {
	return s.has(scene.Point{-3, -2}, scene.Point{-3, 2}) && s.has(scene.Point{-3, 2}, scene.Point{3, -2}) &&
		s.has(scene.Point{3, -2}, scene.Point{3, 2}) && s.has(scene.Point{3, 2}, scene.Point{-3, -2})
}

func TestSymbolsHaveTheirFeatures(t *testing.T) {
	for kind, has := range map[string]func(s *strokes1219) bool{
		// Conditioners are diamonds: a filter with a dashed line, a separator with its level.
		"particle-filter":    func(s *strokes1219) bool { return diamond(s) && dashed(s) },
		"coalescing-filter":  func(s *strokes1219) bool { return diamond(s) && dashed(s) && len(s.lines) == 8 },
		"separator":          func(s *strokes1219) bool { return diamond(s) && s.has(scene.Point{-2, -2}, scene.Point{2, -2}) },
		"lubricator":         func(s *strokes1219) bool { return diamond(s) && s.has(scene.Point{0, 4}, scene.Point{0, 0}) },
		"refrigerated-dryer": func(s *strokes1219) bool { return diamond(s) && s.has(scene.Point{0, -4}, scene.Point{0, 4}) },
		"desiccant-dryer":    func(s *strokes1219) bool { return diamond(s) && s.has(scene.Point{-2, -2}, scene.Point{2, 2}) },
		"aftercooler":        func(s *strokes1219) bool { return diamond(s) && len(s.lines) == 10 }, // two arrows, outwards
		// Air is an open triangle; a compressor's points out of its circle.
		"compressor": func(s *strokes1219) bool {
			return len(s.circles) == 1 && s.has(scene.Point{1.5, 2.02}, scene.Point{5, 0})
		},
		"receiver": func(s *strokes1219) bool { return len(s.circles) == 0 && s.arcs == 2 && len(s.lines) == 2 },
		"gauge":    func(s *strokes1219) bool { return len(s.circles) == 1 && len(s.lines) == 1 },
		// Valves that shut are two triangles; what holds a pressure is a square with an arrow.
		"ball-valve":     twoTriangles,
		"gate-valve":     twoTriangles,
		"globe-valve":    twoTriangles,
		"lockable-valve": twoTriangles,
		"regulator":      func(s *strokes1219) bool { return squared(s, 3) && tips(s) > 0 },
		"relief-valve":   func(s *strokes1219) bool { return squared(s, 2.5) },
		"check-valve":    func(s *strokes1219) bool { return len(s.circles) == 1 && tips(s) > 0 },
	} {
		k, ok := catalog.Builtin().Kind(kind)
		if !ok {
			t.Errorf("no kind %s", kind)
			continue
		}
		if s := strokesOf(k.Symbol); !has(&s) {
			t.Errorf("%s lacks a feature: %s: %+v", kind, k.Symbol, s)
		}
	}
}
