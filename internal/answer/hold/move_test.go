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

// withDrop is a main of 12 m from a wall block to a cap with a tee at 8 m, and a drop of
// 2 m from it to a drop elbow where a hose is plugged in.
func withDrop() *job.Job {
	j := shopOf("copper-l", "1/2", "wall-block", "tee", geom.Point{0, 0, 3}, geom.Point{8, 0, 3})
	j.Net.Points = append(j.Net.Points,
		job.Point{ID: "point.end", At: &geom.Point{12, 0, 3}, Part: job.Part{Kind: "cap"}},
		job.Point{ID: "point.out", At: &geom.Point{8, 0, 1}, Part: job.Part{Kind: "drop-elbow"}})
	r := j.Net.Runs[0]
	b, d := r, r
	b.ID, b.From, b.To = "line.b", job.End{Point: "point.to"}, job.End{Point: "point.end"}
	d.ID, d.From, d.To, d.Role = "line.d", job.End{Point: "point.to"}, job.End{Point: "point.out"}, "drop"
	j.Net.Runs = append(j.Net.Runs, b, d)
	j.Outlets = []job.Outlet{{ID: "outlet.a", Point: "point.out", Hose: &job.Hose{ID: "hose.a", Length: 5}}}
	return j
}

func warm(j *job.Job, c float64) Temps {
	out := Temps{}
	for _, r := range j.Net.Runs {
		out[r.ID] = unit.Celsius(c)
	}
	return out
}

// The tee of withDrop moves by 17.1e-6 · 8 · 50 = 6.84 mm; the drop has to give way over
// 88.6 sqrt(15.88 · 6.84) = 923.4 mm, so that its upper support goes from 0.15 to there. The
// lower one stays 0.30 above the outlet. The main goes straight through its tee: one stretch,
// its supports 1.425 m apart, so that the drop, whose own 2 m push the tee up by 1.71 mm and
// want 461.7 mm of main on each side, finds 8 - 7.425 and 8.85 - 8.
func TestBranchByHand(t *testing.T) {
	j := withDrop()
	a := Of(j, catalog.Builtin(), warm(j, 60))
	if len(a.Stretches) != 2 || len(a.Legs) != 3 || len(a.Held) != 0 {
		t.Fatalf("stretches %+v, legs %+v, held %+v", a.Stretches, a.Legs, a.Held)
	}
	if l := a.Legs[0]; l.At != "point.to" || l.Run != "line.d" || !near(float64(l.Moves), 6.84e-3, 1e-6) || !near(float64(l.There), 0.9234, 2e-4) || l.Until != "line.d/clip-1" || !l.Moved {
		t.Errorf("%+v", l)
	}
	for i, there := range []float64{0.575, 0.85} {
		if l := a.Legs[1+i]; l.Stretch != "line.d/stretch-1" || !near(float64(*l.Needed), 0.4617, 1e-4) || !near(float64(l.There), there, 1e-9) || l.Short {
			t.Errorf("%+v", l)
		}
	}
	var drop []Support
	for _, s := range a.Supports {
		if s.Run == "line.d" {
			drop = append(drop, s)
		}
	}
	if len(drop) != 2 || !near(float64(drop[0].Along), 0.9234, 2e-4) || !near(float64(drop[1].Along), 1.7, 1e-9) || drop[1].Rule != "outlet" || drop[1].Direction != "vertical" {
		t.Errorf("%+v", drop)
	}
	s := a.Stretches[0]
	if len(s.Pieces) != 2 || !near(float64(s.Length), 12, 1e-9) || !near(float64(s.To.Moves), 17.1e-6*12*50, 1e-9) || s.To.What != "free" {
		t.Errorf("%+v", s)
	}
	if s := a.Stretches[1]; s.From.What != "branch" || s.To.What != "fixed" {
		t.Errorf("%+v", s)
	}
}

// A drop with a swan neck, 0.2 m up from the tee and 0.2 m along: its 3 m grow 2.565 mm
// upwards. The neck's level piece alone would have to take that; the main behind it,
// free over 0.575 and 0.85 m, is softer: of springs as 1/L³ the neck, 125, takes
// 6.888/131.9 = 5.22 % and the main 2.431 mm, for which 550.5 mm are enough.
func TestSwanNeckByHand(t *testing.T) {
	j := withDrop()
	j.Net.Runs[2].Path = []geom.Point{{8, 0, 3.2}, {8.2, 0, 3.2}}
	j.Net.Points[3].At = &geom.Point{8.2, 0, 0.2}
	a := Of(j, catalog.Builtin(), warm(j, 60))
	var got []Leg
	for _, l := range a.Legs {
		if l.Stretch == "line.d/stretch-3" {
			got = append(got, l)
		}
	}
	if len(got) != 3 || len(a.Held) != 0 {
		t.Fatalf("%+v, held %+v", a.Legs, a.Held)
	}
	for i, want := range []struct{ moves, needed, there float64 }{{0.134e-3, 0.1292, 0.2}, {2.431e-3, 0.5505, 0.575}, {2.431e-3, 0.5505, 0.85}} {
		if l := got[i]; !near(float64(l.Moves), want.moves, 1e-6) || !near(float64(*l.Needed), want.needed, 2e-4) || !near(float64(l.There), want.there, 1e-9) {
			t.Errorf("%+v, needs %v, want %+v", l, *l.Needed, want)
		}
	}
}

// The pull of a hose comes to the wall where the outlet's part is fixed to one, and to
// the line where it is not: then the support by it holds fast.
func TestPullOfAHose(t *testing.T) {
	j := withDrop()
	j.Building.Walls = []job.Wall{{ID: "wall.a", From: geom.Flat{-1, 0.05}, To: geom.Flat{20, 0.05}, Height: 4, Thickness: 0.2, MadeOf: "plasterboard"}}
	outlet := func(a *Answer) Fixing {
		return a.Fixings[slices.IndexFunc(a.Fixings, func(f Fixing) bool { return f.For == "outlet" })]
	}
	a := Of(j, catalog.Builtin(), nil)
	if f := outlet(a); f.Loose || f.Wall != "wall.a" || f.MadeOf != "plasterboard" || *f.Load != 500 || f.Rule != "pull" {
		t.Errorf("%+v", f)
	}
	j.Net.Points[3].Part.Kind = "drip-leg"
	a = Of(j, catalog.Builtin(), nil)
	if f := outlet(a); !f.Loose {
		t.Errorf("%+v", f)
	}
	last := slices.IndexFunc(a.Supports, func(s Support) bool { return s.ID == "line.d/clip-2" })
	if last < 0 || a.Supports[last].Kind != "fixed" {
		t.Errorf("%+v", a.Supports)
	}
}

// A valve in the middle of a line has a support on each side, no farther than 0.30 m.
func TestBothSidesOfAValve(t *testing.T) {
	j := withDrop()
	j.Net.Points[1].Part.Kind = "ball-valve"
	j.Net.Runs = j.Net.Runs[:2]
	a := Of(j, catalog.Builtin(), nil)
	var at []float64
	for _, s := range a.Supports {
		x := float64(s.Along)
		if s.Run == "line.b" {
			x += 8
		}
		at = append(at, x)
	}
	for _, want := range []float64{7.7, 8.3} {
		if !slices.ContainsFunc(at, func(x float64) bool { return near(x, want, 1e-9) }) {
			t.Errorf("no support at %v m: %v", want, at)
		}
	}
}

// A line outside, or through an unheated place, gets as cold as the site; the air's heat
// counts only above the room's.
func TestClimate(t *testing.T) {
	j := withDrop()
	site := unit.Celsius(-20)
	j.Site.Cold = &site
	if r := Of(j, catalog.Builtin(), warm(j, 20)).Runs[0].Climate; !near(r.Cold.Celsius(), 10, 1e-9) || !near(r.Hot.Celsius(), 30, 1e-9) || r.HotFrom != "room" {
		t.Errorf("heated: %+v", r)
	}
	for _, climate := range []string{"outside", "unheated"} {
		j.Building.Zones[0].Climate = climate
		if r := Of(j, catalog.Builtin(), nil).Runs[0].Climate; !near(r.Cold.Celsius(), -20, 1e-9) {
			t.Errorf("%s: %+v", climate, r)
		}
	}
	for _, nonsense := range []float64{math.NaN(), math.Inf(1), -300, 1e9} {
		if r := Of(j, catalog.Builtin(), warm(j, nonsense)).Runs[0].Climate; r.HotFrom != "room" {
			t.Errorf("%v °C: %+v", nonsense, r)
		}
	}
}

// With growth the anchors of a long line stand at its middle or at a branch there: of a
// main of 24 m between two corners with a tee at 10 m the support nearest to that.
func TestAnchorByABranch(t *testing.T) {
	j := shopOf("steel-sch40", "1", "cap", "tee", geom.Point{0, 3, 3}, geom.Point{0, 0, 3}, geom.Point{10, 0, 3})
	j.Net.Points = append(j.Net.Points, job.Point{ID: "point.end", At: &geom.Point{24, 3, 3}, Part: job.Part{Kind: "cap"}},
		job.Point{ID: "point.out", At: &geom.Point{10, 0, 1}, Part: job.Part{Kind: "drop-elbow"}})
	r := j.Net.Runs[0]
	b, d := r, r
	b.ID, b.From, b.To, b.Path = "line.b", job.End{Point: "point.to"}, job.End{Point: "point.end"}, []geom.Point{{24, 0, 3}}
	d.ID, d.From, d.To, d.Path = "line.d", job.End{Point: "point.to"}, job.End{Point: "point.out"}, nil
	j.Net.Runs = append(j.Net.Runs, b, d)
	a := Of(j, catalog.Builtin(), nil)
	k := slices.IndexFunc(a.Stretches, func(s Stretch) bool { return s.Length > 20 })
	if k < 0 || a.Stretches[k].Fast == "" || math.Abs(float64(*a.Stretches[k].Still)-10) > 1.1 {
		t.Fatalf("%+v", a.Stretches)
	}
	s := a.Stretches[k]
	if got := float64(s.From.Moves + s.To.Moves); !near(got, float64(s.Growth), 1e-12) || !near(float64(s.Growth), 11.39e-6*24*20, 1e-9) {
		t.Errorf("%+v", s)
	}
	fixed := 0
	for _, p := range a.Supports {
		if p.Kind == "fixed" {
			fixed++
		}
	}
	if fixed != 1 {
		t.Errorf("%d fixed supports", fixed)
	}
}

// A swan neck that has to bend is not clipped short: 2.4 m of copper 1/2 in upright over a wall
// block, 10 to 60 °C, grow by 17.1e-6 · 50 · 2400 = 2.05 mm at their top, which wants a leg of
// 88.6 sqrt(15.88 · 2.05) = 506 mm. Of a neck of 0.6 m that is before its clip; one of 0.51 m
// has room for none, and is held by what it hangs between.
func TestSwanNeckIsFree(t *testing.T) {
	for _, neck := range []float64{0.6, 0.51} {
		j := shopOf("copper-l", "1/2", "wall-block", "wall-block", geom.Point{0, 0, 1}, geom.Point{0, 0, 3.4}, geom.Point{neck, 0, 3.4}, geom.Point{neck, 0, 3.3})
		a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
		k := slices.IndexFunc(a.Legs, func(l Leg) bool { return l.At == "line.a/corner-1" })
		if len(a.Held) != 0 || k < 0 || !near(float64(*a.Legs[k].Needed), 0.506, 1e-3) || a.Legs[k].There < *a.Legs[k].Needed-1e-9 {
			t.Fatalf("%v m: held %+v, legs %+v", neck, a.Held, a.Legs)
		}
		clips := 0
		for _, s := range a.Supports {
			if s.At[2] > 3.39 && s.At[0] > 0.01 {
				clips++
			}
		}
		if want := map[float64]int{0.6: 1}[neck]; clips != want {
			t.Errorf("%v m: %d clips on the neck, want %d", neck, clips, want)
		}
	}
}

// Between two turns, with a clip by each and none that holds fast, friction on one side can send
// all growth to the other: 1.6 m of copper 1/2 in, 10 to 60 °C, grow by 17.1e-6 · 50 · 1600 =
// 1.368 mm, which wants a leg of 88.6 sqrt(15.88 · 1.368) = 413 mm round either turn. None may
// hold it: it is itself the leg of 1.3 m that grow by 1.11 mm.
func TestWhatNothingHoldsMayAllGoOneWay(t *testing.T) {
	for _, neck := range []float64{0.3, 0.45} {
		j := shopOf("copper-l", "1/2", "wall-block", "wall-block", geom.Point{0, 0, 3}, geom.Point{1.3, 0, 3}, geom.Point{1.3, 1.6, 3}, geom.Point{1.3 - neck, 1.6, 3})
		a := Of(j, catalog.Builtin(), Temps{"line.a": unit.Celsius(60)})
		k := slices.IndexFunc(a.Stretches, func(s Stretch) bool { return s.Length > 1.5 })
		if k < 0 || a.Stretches[k].Fast != "" || a.Stretches[k].Still != nil {
			t.Fatalf("%v m: %+v", neck, a.Stretches)
		}
		s := a.Stretches[k]
		if !near(float64(s.From.Moves), 1.368e-3, 1e-9) || !near(float64(s.To.Moves), 1.368e-3, 1e-9) {
			t.Errorf("%v m: %+v", neck, s)
		}
		legs := slices.DeleteFunc(slices.Clone(a.Legs), func(l Leg) bool { return l.Stretch != s.ID })
		if len(legs) != 2 {
			t.Fatalf("%v m: %+v", neck, a.Legs)
		}
		for _, l := range legs {
			if !near(float64(*l.Needed), 0.413, 1e-3) || l.Short != (l.At == "line.a/corner-2" && neck < 0.413) {
				t.Errorf("%v m: %+v", neck, l)
			}
		}
	}
}
