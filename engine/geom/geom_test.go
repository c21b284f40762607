package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// Figures from plane geometry, worked by hand.
func TestByHand(t *testing.T) {
	ell := []Point{{0, 0, 0}, {3, 0, 0}, {3, 4, 0}, {3, 4, 2}}
	corners := Corners(ell, 0.01)
	if Length(ell) != 9 || len(corners) != 2 || !near(corners[0].Turn, math.Pi/2, 1e-15) || corners[1].Along != 7 {
		t.Errorf("length %v, corners %+v", Length(ell), corners)
	}
	square := []Flat{{0, 0}, {4, 0}, {4, 3}, {0, 3}}
	if Area(square) != 12 || Centre(square) != (Flat{2, 1.5}) {
		t.Errorf("area %v centre %v", Area(square), Centre(square))
	}
	for p, in := range map[Flat]bool{{1, 1}: true, {4, 1}: true, {0, 0}: true, {5, 1}: false, {-1, 3}: false, {2, 3.1}: false} {
		if Contains(square, p) != in {
			t.Errorf("%v within: %v", p, !in)
		}
	}
	notch := []Flat{{0, 0}, {4, 0}, {4, 4}, {2, 1}, {0, 4}}
	if Contains(notch, Flat{2, 2}) || !Contains(notch, Flat{0.5, 2}) {
		t.Error("the notch counts as within")
	}
	// A quarter sweep of radius 2: tangent 2, arc π, offset 2(√2−1).
	b := Bend{Radius: 2, Turn: math.Pi / 2}
	if !near(b.Tangent(), 2, 1e-15) || !near(b.Arc(), math.Pi, 1e-15) || !near(b.Offset(), 2*(math.Sqrt2-1), 1e-15) || !near(b.Saved(), 4-math.Pi, 1e-15) {
		t.Errorf("%v %v %v", b.Tangent(), b.Arc(), b.Offset())
	}
	// Legs of 3, 4 and 2 with two right angles: the middle leg holds two sweeps
	// of at most 2, the last one of at most 2, the first of at most 3.
	if largest, ok := Fits(ell, 1.9); !ok || !near(largest, 2, 1e-12) {
		t.Errorf("largest radius %v", largest)
	}
	if got := Swept(ell, 1); !near(got, 9-2*(2-math.Pi/2), 1e-12) {
		t.Errorf("swept length %v", got)
	}
}

// Seen from inside a wall runs from left to right: facing north, the room is south.
func TestWallFrame(t *testing.T) {
	f := Frame{From: Flat{1, 6}, To: Flat{9, 6}, Floor: 0.5}
	if got := f.Out(2, 1, 0.3); got != (Point{3, 5.7, 1.5}) {
		t.Errorf("on the wall %v", got)
	}
	v := Front(f)
	if v.Flat(Point{3, 6, 1})[0] >= v.Flat(Point{4, 6, 1})[0] || v.Depth(Point{3, 5, 1}) <= v.Depth(Point{3, 6, 1}) {
		t.Error("the elevation is seen from behind")
	}
}

func TestCrossesItself(t *testing.T) {
	for name, row := range map[string]struct {
		outline []Flat
		crosses bool
	}{
		"square":         {[]Flat{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, false},
		"corner on edge": {[]Flat{{0, 0}, {1, 0}, {2, 0}, {2, 1}, {0, 1}}, false},
		"bow":            {[]Flat{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, true},
		"spike":          {[]Flat{{0, 0}, {2, 0}, {1, 0}, {1, 1}}, true},
		"touching":       {[]Flat{{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}}, true},
	} {
		if _, _, got := CrossesItself(row.outline); got != row.crosses {
			t.Errorf("%s crosses itself: %v", name, got)
		}
	}
}

func TestUnroll(t *testing.T) {
	// A room walked from its second wall given; the fourth stands apart.
	walls := []Frame{
		{From: Flat{0, 0}, To: Flat{0, 3}},
		{From: Flat{4, 3}, To: Flat{4, 0}},
		{From: Flat{0, 3}, To: Flat{4, 3}},
		{From: Flat{10, 0}, To: Flat{12, 0}},
	}
	s := Unroll(walls, 0.5)
	if want := []int{0, 2, 1, 3}; len(s.Order) != 4 || s.Order[1] != want[1] || s.Order[2] != want[2] || s.Length != 3+4+3+0.5+2 {
		t.Errorf("order %v, length %v", s.Order, s.Length)
	}
	i, at, ok := s.Nearest(Point{1, 2.9, 1.2})
	if !ok || i != 1 || !near(at[0], 4, 1e-12) || at[1] != 1.2 {
		t.Errorf("nearest %d %v", i, at)
	}
}

// Nothing here may give NaN, whatever coincides.
func TestDegenerate(t *testing.T) {
	p := Point{1, 2, 3}
	same := []Point{p, p, p}
	h, _ := NearestOnPath(Point{}, same)
	at, _, _ := OnPath(same, 1)
	first, second := Split(same, 0.5)
	wall := Frame{From: Flat{1, 1}, To: Flat{1, 1}}
	along, up, off := wall.In(p)
	largest, fits := Fits(same, 1)
	for name, x := range map[string]float64{
		"length": Length(same), "hit": h.Distance, "at": at[0], "angle": Angle(Point{}, p), "unit": Point{}.Unit()[0], "along": along, "up": up, "off": off,
		"area": Area([]Flat{{1, 1}, {1, 1}, {1, 1}}), "centre": Centre([]Flat{{1, 1}, {1, 1}, {1, 1}})[0], "swept": Swept([]Point{{0, 0, 0}, {1, 0, 0}, {0, 0, 0}}, 1),
	} {
		if math.IsNaN(x) {
			t.Errorf("%s is NaN", name)
		}
	}
	if len(first) == 0 || len(second) == 0 || len(Corners(same, 0)) != 0 || !fits || !math.IsInf(largest, 1) {
		t.Error("points that coincide make corners")
	}
	if _, ok := NearestOnPath(p, nil); ok || Length(nil) != 0 || Contains(nil, Flat{}) || Unroll(nil, 1).Length != 0 {
		t.Error("nothing at all counts as something")
	}
	if _, _, ok := OnPath(nil, 1); ok {
		t.Error("a place on nothing")
	}
}

func drawFlat(t *rapid.T, name string) Flat {
	x := rapid.Float64Range(-100, 100)
	return Flat{x.Draw(t, name+" x"), x.Draw(t, name+" y")}
}

func drawPath(t *rapid.T) []Point {
	n := rapid.IntRange(1, 8).Draw(t, "points")
	path := make([]Point, n)
	for i := range path {
		path[i] = drawFlat(t, "p").At(rapid.Float64Range(-5, 20).Draw(t, "z"))
	}
	return path
}

func TestFrameRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Frame{From: drawFlat(t, "from"), To: drawFlat(t, "to"), Floor: 1}
		p := drawFlat(t, "p").At(2)
		along, up, off := f.In(p)
		if back := f.Out(along, up, off); back.Distance(p) > 1e-9 {
			t.Fatalf("%v came back as %v", p, back)
		}
	})
}

// The nearest place is on the path, no corner is nearer, and its way along leads
// back to it; splitting keeps the length.
func TestPathProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		path := drawPath(t)
		p := drawFlat(t, "q").At(3)
		h, ok := NearestOnPath(p, path)
		if !ok {
			t.Fatal("no place")
		}
		for _, c := range path {
			if p.Distance(c) < h.Distance-1e-9 {
				t.Fatalf("corner %v is nearer", c)
			}
		}
		at, _, _ := OnPath(path, h.Along)
		if at.Distance(h.At) > 1e-6 {
			t.Fatalf("%v along %v, %v", h.At, h.Along, at)
		}
		along := rapid.Float64Range(0, 1).Draw(t, "share") * Length(path)
		a, b := Split(path, along)
		if !near(Length(a), along, 1e-6) || !near(Length(a)+Length(b), Length(path), 1e-6) {
			t.Fatalf("%v + %v of %v", Length(a), Length(b), Length(path))
		}
		back := make([]Point, len(path))
		for i, q := range path {
			back[len(path)-1-i] = q
		}
		if !near(Length(back), Length(path), 1e-9) || len(Corners(back, 0.1)) != len(Corners(path, 0.1)) {
			t.Fatal("walking back differs")
		}
		if r, _ := Fits(path, 0); r < 0 || math.IsNaN(r) || math.IsNaN(Swept(path, 0.1)) {
			t.Fatalf("largest radius %v", r)
		}
	})
}

// Area and centre move with the outline; the area of the reverse is the negative.
func TestOutlineProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 8).Draw(t, "corners")
		o, moved, back := make([]Flat, n), make([]Flat, n), make([]Flat, n)
		by := drawFlat(t, "by")
		for i := range o { // star-shaped about the origin, so that it is simple
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(1, 50).Draw(t, "r")
			o[i] = Flat{r * c, r * s}
			moved[i], back[n-1-i] = o[i].Plus(by), o[i]
		}
		if a := Area(o); a <= 0 || !near(Area(moved), a, 1e-7*a) || !near(Area(back), -a, 1e-9*a) {
			t.Fatalf("areas %v %v %v", Area(o), Area(moved), Area(back))
		}
		if Centre(moved).Distance(Centre(o).Plus(by)) > 1e-6 {
			t.Fatalf("centres %v %v", Centre(o), Centre(moved))
		}
		if _, _, crosses := CrossesItself(o); crosses || n > 3 && !Contains(o, Flat{}) {
			t.Fatal("a star crosses itself or leaves out its middle")
		}
		low, high, _ := Bounds(o)
		if Contains(o, high.Plus(Flat{1, 0})) || Contains(o, low.Minus(Flat{0, 1})) {
			t.Fatal("a place out of bounds is within")
		}
	})
}

// In the isometric view the three axes come out alike, 120 degrees apart.
func TestIsometric(t *testing.T) {
	for _, turn := range []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2} {
		v := Isometric(turn)
		x, y, z := v.Flat(Point{1, 0, 0}), v.Flat(Point{0, 1, 0}), v.Flat(Point{0, 0, 1})
		want := math.Sqrt(2.0 / 3.0)
		if !near(x.Length(), want, 1e-12) || !near(y.Length(), want, 1e-12) || !near(z.Length(), want, 1e-12) || z[1] <= 0 {
			t.Errorf("axes %v %v %v", x, y, z)
		}
		if !near(math.Abs(x.Dot(y)), want*want/2, 1e-12) || v.Depth(Point{0, 0, 1}) <= 0 {
			t.Errorf("axes %v %v are not 120 or 60 degrees apart", x, y)
		}
	}
}
