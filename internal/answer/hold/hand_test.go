package hold

import (
	"math"
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// shopOf is a job of one line, of the kinds named at its two ends, in a zone of 10 °C in
// winter and 30 °C in summer.
func shopOf(stock, size, from, to string, path ...geom.Point) *job.Job {
	j := &job.Job{Version: job.Version}
	cold, warm := unit.Celsius(10), unit.Celsius(30)
	j.Building.Zones = []job.Zone{{ID: "zone.shop", Climate: "heated", Winter: &cold, Summer: &warm}}
	last := len(path) - 1
	j.Net.Points = []job.Point{
		{ID: "point.from", At: &path[0], Part: job.Part{Kind: from}},
		{ID: "point.to", At: &path[last], Part: job.Part{Kind: to}},
	}
	j.Net.Runs = []job.Run{{
		ID: "line.a", From: job.End{Point: "point.from"}, To: job.End{Point: "point.to"},
		Path: path[1:last], Stock: stock, Size: size, Role: "main", Zone: "zone.shop",
	}}
	return j
}

func near(got, want, by float64) bool { return math.Abs(got-want) <= by }

// An L of copper 1/2 in, outside 15.88 mm, from a wall block 6 m to a corner and 4 m on
// to a cap, 10 to 60 °C. By hand, with 17.1e-6 per K (B31.9) and 88.6 (table 14.8):
//
//	first leg: 0.30 from the block, 0.15 from the corner, 5.55 m between in four of
//	1.3875 (1.52 allowed); second: 0.15, 0.30 from the cap, 3.55 m in three of 1.1833.
//	The first, held by the block, grows 17.1e-6 · 6 · 50 = 5.130 mm: leg 0.7997 m.
//	The second is held at its support nearest to 2.0 m, 2.5167: grows 2.152 mm to the
//	corner, leg 0.5179 m. Both fit round the corner, 1.3176 of 1.52 m.
func TestLByHand(t *testing.T) {
	j := shopOf("copper-l", "1/2", "wall-block", "cap", geom.Point{0, 0, 3}, geom.Point{6, 0, 3}, geom.Point{6, 4, 3})
	a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
	want := []float64{0.3, 1.6875, 3.075, 4.4625, 6 - 0.5179, 6 + 0.7997, 7.3333, 8.5167, 9.7}
	if len(a.Supports) != len(want) {
		t.Fatalf("%d supports: %+v", len(a.Supports), a.Supports)
	}
	for i, s := range a.Supports {
		if !near(float64(s.Along), want[i], 2e-4) {
			t.Errorf("%s at %.4f m, want %.4f", s.ID, s.Along, want[i])
		}
		if (s.Kind == "fixed") != (i == 7) || s.Moved != (i == 4 || i == 5) {
			t.Errorf("%s: %s, moved %v", s.ID, s.Kind, s.Moved)
		}
	}
	if len(a.Stretches) != 2 || len(a.Legs) != 2 || len(a.Held) != 0 || len(a.Gaps) != 0 {
		t.Fatalf("%d stretches, %d legs, held %+v, gaps %+v", len(a.Stretches), len(a.Legs), a.Held, a.Gaps)
	}
	for i, l := range a.Legs {
		moves, needed := []float64{5.130e-3, 2.152e-3}[i], []float64{0.7997, 0.5179}[i]
		if !near(float64(l.Moves), moves, 1e-6) || !near(float64(*l.Needed), needed, 2e-4) || !near(float64(l.There), needed, 2e-4) || l.Short {
			t.Errorf("leg %+v, needs %v", l, *l.Needed)
		}
	}
	if s := a.Stretches[1]; s.Fast != "line.a/clip-8" || !near(float64(*s.Still), 2.5167, 1e-4) || s.From.What != "turn" || s.To.What != "free" {
		t.Errorf("stretch %+v", s)
	}
	if s := a.Stretches[0]; s.From.What != "fixed" || *s.Still != 0 || s.Fast != "" {
		t.Errorf("stretch %+v", s)
	}
	if r := a.Runs[0].Climate; r.HotFrom != "air" || !near(r.Hot.Celsius(), 60, 1e-9) || !near(r.Cold.Celsius(), 10, 1e-9) {
		t.Errorf("climate %+v", r)
	}
}

// The Copper Tube Handbook's table 14.8 (checks.csv, bend_radius.csv) through a drawing:
// a line from a wall block that grows by a round figure, and the leg round its corner,
// to the inch that the table is printed to.
func TestLegsOfTheTable(t *testing.T) {
	const inch = 0.0254
	for _, c := range []struct {
		size   string
		growth float64 // in
		leg    float64 // in
		source string
	}{
		{"1/2", 0.5, 50, "checks 11"},
		{"1/2", 1, 70, "checks 13"},
		{"3/4", 1, 83, "checks 17"},
		{"3/4", 2, 117, "checks 19"},
		{"1", 1, 94, "checks 21"},
		{"1-1/4", 1, 104, "checks 25"},
		{"1-1/2", 1.5, 138, "checks 27"},
		{"2", 2, 183, "checks 29"},
		{"2", 4, 259, "checks 31"},
	} {
		long := c.growth * inch / (17.1e-6 * 50)
		j := shopOf("copper-l", c.size, "wall-block", "cap", geom.Point{0, 0, 3}, geom.Point{long, 0, 3}, geom.Point{long, 20, 3})
		a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
		k := slices.IndexFunc(a.Legs, func(l Leg) bool { return l.Stretch == "line.a/stretch-1" })
		if k < 0 || !near(float64(*a.Legs[k].Needed)/inch, c.leg, 1) || !near(float64(a.Legs[k].Moves)/inch, c.growth, 1e-9) {
			t.Errorf("%s in, growth %v in (%s): %+v", c.size, c.growth, c.source, a.Legs)
		}
	}
}

// Copper 1/2 in, held by wall blocks at both ends, 10 to 60 °C, by hand: 117.2 GPa ·
// 17.1e-6 · 50 = 100.2 MPa on pi (15.88 - 1.02) 1.02 = 47.62 mm², 4772 N. Ten metres
// grow 8.55 mm: one loop of legs 88.6 sqrt(15.88 · 8.55)/sqrt 2 = 730 mm. Sixty grow 51.3
// mm: a leg of 1788 mm is more than the 1520 mm between supports, so two of 1264 mm.
func TestHeldByHand(t *testing.T) {
	for _, c := range []struct {
		long, leg float64
		count     int
	}{{10, 0.730, 1}, {60, 1.2644, 2}} {
		j := shopOf("copper-l", "1/2", "wall-block", "wall-block", geom.Point{0, 0, 3}, geom.Point{c.long, 0, 3})
		a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
		if len(a.Held) != 1 || len(a.Loops) != 1 || len(a.Legs) != 0 {
			t.Fatalf("%v m: held %+v, loops %+v", c.long, a.Held, a.Loops)
		}
		h, l := a.Held[0], a.Loops[0]
		if h.Why != "both-ends-fixed" || !near(float64(*h.Stress), 100.2e6, 0.05e6) || !near(*h.Push, 4772, 5) || h.BowsAt == nil {
			t.Errorf("%v m: %+v, push %v N, stress %v", c.long, h, *h.Push, *h.Stress)
		}
		if l.Count != c.count || !near(float64(l.Leg), c.leg, 1e-3) || len(l.Places) != c.count || !near(float64(l.Places[0]), c.long/2/float64(c.count), 1e-9) {
			t.Errorf("%v m: %+v", c.long, l)
		}
	}
	// Where there is room for a metre and a fifth alone, sixty metres take three loops of
	// 88.6 sqrt(15.88 · 51.3/3)/sqrt 2 = 1032 mm, ten, thirty and fifty metres along.
	a := Of(shopOf("copper-l", "1/2", "wall-block", "wall-block", geom.Point{0, 0, 3}, geom.Point{60, 0, 3}), catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
	if l := a.Loops[0].Within(1.2); l.Count != 3 || !near(float64(l.Leg), 1.0324, 1e-3) || !near(float64(l.Growth), 17.1e-3, 1e-6) || len(l.Places) != 3 || !near(float64(l.Places[2]), 50, 1e-9) {
		t.Errorf("%+v", l)
	}
	if l := a.Loops[0].Within(1.3); l.Count != 2 {
		t.Errorf("%+v", l)
	}
	// At the temperature of its room in winter nothing grows, and under a millimetre nothing is told.
	short := Of(shopOf("copper-l", "1/2", "wall-block", "wall-block", geom.Point{0, 0, 3}, geom.Point{1, 0, 3}), catalog.Builtin(), nil)
	if len(short.Held) != 0 {
		t.Errorf("0.3 mm: %+v", short.Held)
	}
}

// A valve close behind a corner leaves a leg of less than is needed; by hand, with the
// valve 0.5 m behind it, its support 0.3 m before it leaves 0.2 m. Copper 1/2 in over 20 m
// from a block, 10 to 60 °C: 17.1 mm want 88.6 sqrt(15.88 · 17.1) = 1460 mm.
func TestLegTooShort(t *testing.T) {
	j := shopOf("copper-l", "1/2", "wall-block", "ball-valve", geom.Point{0, 0, 3}, geom.Point{20, 0, 3}, geom.Point{20, 0.5, 3})
	a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
	if len(a.Held) != 1 || len(a.Loops) != 1 {
		t.Fatalf("held %+v", a.Held)
	}
	h := a.Held[0]
	if h.Why != "leg-short" || h.Where != "line.a/corner-1" || !near(float64(*h.Needed), 1.460, 1e-3) || *h.There > 0.2+1e-9 {
		t.Errorf("%+v, needs %v, has %v", h, *h.Needed, *h.There)
	}
	// Neither more than the line can push when held altogether, nor nothing: 100.2 MPa on 47.62 mm².
	if *h.Push <= 0 || *h.Push >= 4772 {
		t.Errorf("push %v N", *h.Push)
	}
}

// A line from a coil: 1/2 in composite, five outside diameters (bend_radius.csv), bent by
// a right angle saves (2 - pi/2) R; 0.1 m behind a tee there is no room for it.
func TestBendsByHand(t *testing.T) {
	shelf := catalog.Builtin()
	size, _ := shelf.Size("pe-al-pe", "1/2")
	j := shopOf("pe-al-pe", "1/2", "tee", "cap", geom.Point{0, 0, 3}, geom.Point{5, 0, 3}, geom.Point{5, 3, 3}, geom.Point{5, 3, 2.95})
	a := Of(j, shelf, nil)
	if len(a.Bends) != 2 {
		t.Fatalf("%+v", a.Bends)
	}
	radius := 5 * float64(size.Outside)
	if b := a.Bends[0]; !near(float64(b.Least), radius, 1e-9) || !b.Fits || !near(float64(b.Saved), (2-math.Pi/2)*radius, 1e-9) || !near(float64(b.Tangent), radius, 1e-9) {
		t.Errorf("%+v", b)
	}
	if b := a.Bends[1]; b.Fits || b.Radius >= b.Least || float64(b.Radius) > 0.05 {
		t.Errorf("%+v", b)
	}
	want := 8.05 - float64(a.Bends[0].Saved+a.Bends[1].Saved)
	if r := a.Runs[0]; !near(float64(r.Drawn), 8.05, 1e-9) || !near(float64(r.Swept), want, 1e-9) {
		t.Errorf("drawn %v, swept %v, want %v", r.Drawn, r.Swept, want)
	}
	// Elbows save nothing.
	b := Of(shopOf("copper-l", "1/2", "tee", "cap", geom.Point{0, 0, 3}, geom.Point{5, 0, 3}, geom.Point{5, 3, 3}), shelf, nil)
	if len(b.Bends) != 0 || b.Runs[0].Drawn != b.Runs[0].Swept {
		t.Errorf("%+v", b.Runs[0])
	}
}

// A line at 2 m on a wall of 6 m that begins at x = 1: marks are metres from there, and
// a door takes the wall away.
func TestWallMarks(t *testing.T) {
	j := shopOf("copper-l", "1/2", "wall-block", "cap", geom.Point{2, -0.05, 2}, geom.Point{6, -0.05, 2})
	j.Building.Walls = []job.Wall{{ID: "wall.a", From: geom.Flat{1, 0}, To: geom.Flat{7, 0}, Height: 3, Thickness: 0.2, MadeOf: "brick"}}
	a := Of(j, catalog.Builtin(), nil)
	if len(a.Walls) != 1 || len(a.Walls[0].Marks) != len(a.Supports)+2 || a.Anchors[0].MadeOf != "brick" || len(a.Anchors) != 1 {
		t.Fatalf("%+v", a.Walls)
	}
	first := a.Walls[0].Marks[0]
	if first.ID != "point.from" || !near(float64(first.Along), 1, 1e-9) || !near(float64(first.Up), 2, 1e-9) || !near(math.Abs(float64(first.Off)), 0.05, 1e-9) {
		t.Errorf("%+v", first)
	}
	if s := a.Supports[0]; s.On.What != "wall" || !near(float64(s.On.Place.Along), 1.3, 1e-9) {
		t.Errorf("%+v", s)
	}
	j.Building.Openings = []job.Opening{{ID: "opening.a", Wall: "wall.a", Kind: "gate", Along: 0.5, Width: 5.4, Height: 2.5}}
	if s := Of(j, catalog.Builtin(), nil).Supports[0]; s.On.Opening != "opening.a" || s.On.How != "" {
		t.Errorf("%+v", s.On)
	}
	j.Building.Walls[0].MadeOf = ""
	if f := Of(j, catalog.Builtin(), nil); f.Anchors[0].MadeOf != "" || f.Fixings[0].MadeOf != "" {
		t.Errorf("%+v", f.Anchors)
	}
}

// Round a corner that stands into the room a line hangs at the wall that it runs along, and
// goes through none: a support 0.04 m before the corner lies behind the face of the other
// wall, 0.08 m beside its end.
func TestRoundTheCornerOfAnL(t *testing.T) {
	j := shopOf("copper-l", "1/2", "wall-block", "cap", geom.Point{7.92, 7, 2}, geom.Point{7.92, 4.74, 2})
	j.Building.Walls = []job.Wall{
		{ID: "wall.north", From: geom.Flat{8, 5}, To: geom.Flat{14, 5}, Height: 3, Thickness: 0.24},
		{ID: "wall.east", From: geom.Flat{8, 9}, To: geom.Flat{8, 5}, Height: 3, Thickness: 0.24},
	}
	a := Of(j, catalog.Builtin(), nil)
	last := a.Supports[len(a.Supports)-1]
	if !near(2.26-float64(last.Along), 0.3, 1e-9) {
		t.Fatalf("%+v", last)
	}
	for _, s := range a.Supports {
		if s.On.How != "clip" || s.On.Place == nil || s.On.Place.Wall != "wall.east" {
			t.Errorf("%s: %+v", s.ID, s.On)
		}
	}
}
