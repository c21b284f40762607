package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

// The map along an axis rises, keeps every distance but those across a slab, and no place lies in
// a slab, nor does a stretch that runs inclined pass through one.
func TestShorterRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOfN(rapid.Float64Range(-50, 200), 0, 30).Draw(t, "places")
		var inclined [][2]float64
		if len(places) > 1 && rapid.Bool().Draw(t, "inclined") {
			inclined = append(inclined, [2]float64{min(places[0], places[1]), max(places[0], places[1])})
		}
		across := rapid.SliceOfN(rapid.SampledFrom(append([]float64{0}, places...)), 0, 6).Draw(t, "lines")
		high := rapid.Float64Range(0, 6).Draw(t, "high")
		perMetre := rapid.Float64Range(0.5, 50).Draw(t, "scale")
		in := shortened{places: slices.Clone(places), inclined: inclined, across: across, high: high}
		s := in.shorten(perMetre)
		for _, b := range s.slabs {
			if !(b.from < b.to) || b.drawn <= 0 || b.drawn >= b.to-b.from {
				t.Fatalf("%+v", b)
			}
			for _, p := range places {
				if p >= b.from && p <= b.to {
					t.Fatalf("%g lies in %+v", p, b)
				}
			}
			for _, in := range inclined {
				if in[0] < b.to && in[1] > b.from {
					t.Fatalf("%v passes through %+v", in, b)
				}
			}
		}
		v := rapid.Float64Range(-60, 210).Draw(t, "from")
		w := v + rapid.Float64Range(1e-3, 100).Draw(t, "by")
		if a, b := s.at(v), s.at(w); !(a < b) || b-a > w-v+1e-9 {
			t.Fatalf("%g to %g becomes %g to %g", v, w, a, b)
		}
		for _, p := range places {
			const near = 1e-4
			if !slices.ContainsFunc(s.slabs, func(b slab) bool { return b.from < p+near && b.to > p-near }) && math.Abs(s.at(p+near)-s.at(p-near)-2*near) > 1e-9 {
				t.Fatalf("the slope at %g is not one", p)
			}
		}
	})
}

// longHall is a hall of some length with a line along it, and what else is given.
func longHall(long, wide float64, more string) string {
	return fmt.Sprintf(`{"dropleg": 1, "title": "A hall", "site": {"units": "metric"}, "building": {
		"rooms": [{"id": "room.hall", "name": "Hall", "outline_m": [[0,0],[%[1]g,0],[%[1]g,%[2]g],[0,%[2]g]], "floor_m": 0, "ceiling_m": 6}],
		"walls": [{"id": "wall.s", "name": "South wall", "from_m": [%[1]g,0], "to_m": [0,0], "height_m": 6, "thickness_m": 0.3}]},
		"net": {"points": [{"id": "point.a", "at_m": [1,0.1,4], "part": {"kind": ""}}, {"id": "point.b", "at_m": [%[3]g,0.1,4], "part": {"kind": ""}},
			{"id": "point.c", "at_m": [%[3]g,0.1,1.2], "part": {"kind": ""}}, {"id": "point.d", "at_m": [%[3]g,%[4]g,4], "part": {"kind": ""}} %[5]s`,
		long, wide, long-1, wide-1, more)
}

const hallRuns = `], "runs": [{"id": "line.a", "from": {"point": "point.a"}, "to": {"point": "point.b"}, "stock": "copper-l", "size": "1", "role": "main"},
	{"id": "line.b", "from": {"point": "point.b"}, "to": {"point": "point.c"}, "stock": "copper-l", "size": "1", "role": "drop"},
	{"id": "line.d", "from": {"point": "point.b"}, "to": {"point": "point.d"}, "stock": "copper-l", "size": "1", "role": "main"}`

func hall(t *testing.T, raw string) Given {
	t.Helper()
	j, found := job.Parse([]byte(raw))
	if j == nil {
		t.Fatal(found)
	}
	return Given{Index: job.NewIndex(j), Shelf: catalog.Builtin(), Work: &Work{}}
}

// a4 is the paper of an isometric drawing on A4, near enough.
func a4() IsometricPaper {
	sheet := Sheet{Width: 259, Height: 139, Units: unit.Metric}
	open := sheet
	open.Height = 153
	return IsometricPaper{Whole: sheet, Open: open, Most: 50, Working: 1000.0 / 150, Signs: func(IsometricSays) scene.Scene {
		return scene.Scene{Max: scene.Point{84, 60}}
	}}
}

// marked are by id the breaks of a leaf and what is written in its figures.
func marked(leaf IsometricLeaf) (breaks map[string]int, words map[string][]string) {
	breaks, words = map[string]int{}, map[string][]string{}
	for _, l := range leaf.Scene.Layers {
		for _, it := range l.Items {
			if it.Mark != nil && strings.HasPrefix(it.Title, "broken") {
				breaks[it.ID]++
			}
			if it.Text != nil && strings.HasPrefix(it.Text.Text, "true ") {
				words[it.ID] = append(words[it.ID], it.Text.Text)
			}
		}
	}
	return breaks, words
}

// A hall of 200 m with a line all along it has room on one leaf: each line that is drawn shorter
// has its break and its true length, by the distance of its ends in the job, and all lines run
// along the axes.
func TestVastHallIsBroken(t *testing.T) {
	given := hall(t, longHall(200, 80, "")+hallRuns+"]}}")
	leaves := IsometricLeaves(given, a4())
	if len(leaves) != 1 || leaves[0].Whole || !leaves[0].Says.Broken {
		t.Fatalf("%d leaves, %+v", len(leaves), leaves[0].Says)
	}
	breaks, words := marked(leaves[0])
	for id, long := range map[string]string{"line.a": "true 198.00 m", "line.d": "true 78.90 m"} {
		if breaks[id] != 1 || len(words[id]) != 1 || words[id][0] != long {
			t.Errorf("%s: %d breaks, %v, want %s", id, breaks[id], words[id], long)
		}
	}
	if breaks["line.b"] != 0 || len(words) != 2 {
		t.Errorf("%v %v", breaks, words)
	}
	whole := min(259/((200+80)*math.Sqrt(3)/2), 139/((200+80)*0.5+6))
	for _, it := range layer(leaves[0].Scene, "lines") {
		for k := 1; it.Line != nil && k < len(it.Line.Points); k++ {
			d := minus(it.Line.Points[k], it.Line.Points[k-1])
			if turn := math.Mod(math.Atan2(d[1], d[0])*180/math.Pi+360, 180); math.Min(math.Abs(turn-30), math.Min(math.Abs(turn-150), math.Abs(turn-90))) > 1e-6 {
				t.Errorf("%s runs at %g°", it.ID, turn)
			}
			if it.ID == "line.b" && math.Hypot(d[0], d[1]) < 3*2.8*whole {
				t.Errorf("the drop of 2.8 m is %g mm long, %g unbroken", math.Hypot(d[0], d[1]), 2.8*whole)
			}
		}
	}
}

// A line that falls keeps its fall on both sides of its break.
func TestFallKeepsItsSlope(t *testing.T) {
	falls := strings.Replace(longHall(200, 10, ""), `"at_m": [1,0.1,4]`, `"at_m": [1,0.1,5.98]`, 1)
	given := hall(t, falls+hallRuns+"]}}")
	f := plotted(given, 8)
	s := (&site{given: given}).moved(&f)
	line := s.given.Index.Centreline(s.given.Index.Run("line.a"))
	if len(line) != 4 {
		t.Fatalf("%v", line)
	}
	for _, k := range []int{1, 3} {
		d := line[k].Minus(line[k-1])
		if got := d[2] / d[0]; math.Abs(got+0.01) > 1e-9 {
			t.Errorf("falls %g, want 1 in 100", got)
		}
	}
	if s.breaks[0].leg.true != geom.Length([]geom.Point{{1, 0.1, 5.98}, {199, 0.1, 4}}) {
		t.Errorf("%+v", s.breaks[0])
	}
}

// Where a line runs inclined nothing is drawn shorter: it comes out as it would unbroken.
func TestInclinedStaysRight(t *testing.T) {
	more := `, {"id": "point.e", "at_m": [150,40,4], "part": {"kind": ""}}`
	runs := `, {"id": "line.e", "from": {"point": "point.a"}, "to": {"point": "point.e"}, "stock": "copper-l", "size": "1", "role": "main"}`
	given := hall(t, longHall(200, 80, more)+hallRuns+runs+"]}}")
	f := plotted(given, 8)
	for k, long := range []float64{149, 39.9} {
		a, b := []float64{1, 0.1}[k], []float64{150, 40}[k]
		if got := f[k].at(b) - f[k].at(a); math.Abs(got-long) > 1e-9 {
			t.Errorf("axis %d: %g m, want %g", k, got, long)
		}
	}
	s := site{given: given}.moved(&f)
	for _, b := range s.breaks {
		if b.run == "line.e" {
			t.Error("the inclined line is broken")
		}
	}
	if len(s.breaks) == 0 {
		t.Error("nothing is broken beyond it")
	}
}

// A small room is drawn whole, at no more than the largest scale.
func TestTinyRoom(t *testing.T) {
	leaves := IsometricLeaves(hall(t, longHall(3, 2, "")+hallRuns+"]}}"), a4())
	if len(leaves) != 1 || !leaves[0].Whole || leaves[0].Says != (IsometricSays{}) {
		t.Fatalf("%d leaves, %+v", len(leaves), leaves[0].Says)
	}
	for _, it := range layer(leaves[0].Scene, "lines") {
		d := minus(it.Line.Points[1], it.Line.Points[0])
		if got := math.Hypot(d[0], d[1]); it.ID == "line.b" && (got > 2.8*50+1e-9 || got < 2.8*15) {
			t.Errorf("2.8 m are %g mm", got)
		}
	}
}
