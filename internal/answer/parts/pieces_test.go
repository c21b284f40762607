package parts

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/internal/shop/catalog"
)

// net reads a job of points and runs.
func net(t *testing.T, points, runs string) *Answer {
	t.Helper()
	j := read(t, []byte(`{"dropleg": 1, "title": "net", "net": {"points": [`+points+`], "runs": [`+runs+`]}}`))
	a := Of(j, catalog.Builtin())
	closes(t, j, catalog.Builtin(), a)
	return a
}

func cuts(a *Answer) []float64 {
	var list []float64
	for _, p := range a.Pieces {
		list = append(list, float64(*p.Cut))
	}
	return list
}

func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) < near })
}

// Steel is sold in 6.4008 m; the gap of a 1/2 coupling is 0.28 in = 7.11 mm and the
// take-out of an elbow 14.99 mm (testdata/ref/piping/takeouts.csv). By hand:
//
//	10 m: 10 − 2·0.01499 − 0.00711 = 9.96291; a full length and 3.56211 left
//	12.9 m: 12.9 − 0.02998 − 0.00711 = 12.86291, two full lengths would take 12.8016;
//	0.05419 is left of three with a second gap: shared with the one before, 3.2275 each
func TestLongerThanTheStick(t *testing.T) {
	for _, row := range []struct {
		metres float64
		want   []float64
	}{
		{6.43, []float64{6.40002}},
		{10, []float64{6.4008, 3.56211}},
		{12.9, []float64{6.4008, 3.2275, 3.2275}},
	} {
		a := line(t, "us", "steel-sch40", "1/2", "elbow-90", "out", "in", row.metres, "")
		if !same(cuts(a), row.want) {
			t.Errorf("%v m: cut %v, want %v", row.metres, cuts(a), row.want)
		}
		couplings := 0
		for _, l := range a.Implied {
			if l.Article == "steel-sch40 coupling 1/2" {
				couplings = l.Pieces
			}
		}
		if couplings != len(row.want)-1 {
			t.Errorf("%v m: %d couplings", row.metres, couplings)
		}
		if len(row.want) > 1 && (a.Pieces[0].To.Joint != "line.a/coupling-1/in" || a.Pieces[1].From.Joint != "line.a/coupling-1/out") {
			t.Errorf("%v m: %s and %s", row.metres, a.Pieces[0].To.Joint, a.Pieces[1].From.Joint)
		}
	}
}

// Two elbows stand 40 mm apart: their bodies take 28.45 mm each (takeouts.csv, centre
// to end), so that a close nipple has to do; at 25 mm their take-outs of 14.99 mm leave
// nothing to cut, 4.98 mm are missing.
func TestTooShort(t *testing.T) {
	for _, row := range []struct{ metres, cut, missing float64 }{{0.040, 0.01002, 0}, {0.025, 0, 0.00498}} {
		p := line(t, "us", "steel-sch40", "1/2", "elbow-90", "out", "in", row.metres, "").Pieces[0]
		if !p.TooShort || math.Abs(float64(*p.Cut)-row.cut) > 1e-5 || math.Abs(float64(p.Missing)-row.missing) > 1e-5 {
			t.Errorf("%v m: cut %v, missing %v, too short %v", row.metres, *p.Cut, p.Missing, p.TooShort)
		}
	}
	if p := line(t, "us", "steel-sch40", "1/2", "elbow-90", "out", "in", 0.060, "").Pieces[0]; p.TooShort {
		t.Error("60 mm is room enough for two bodies of 28.45 mm")
	}
}

const capEnds = `{"id": "point.a", "at_m": [0, 0, 0], "part": {"kind": "cap"}}, {"id": "point.z", "at_m": [4, 0, 0], "part": {"kind": "cap"}}`

// At a plain place straight on nothing joins the line: one piece of two runs. Where an
// existing line meets a new one it takes a coupling, at a right angle an elbow.
func TestPlainPlaces(t *testing.T) {
	run := func(id, from, to, state string) string {
		return `{"id": "line.` + id + `", "from": {"point": "point.` + from + `"}, "to": {"point": "point.` + to + `"}, "stock": "copper-l", "size": "1/2", "role": "main", "state": "` + state + `"}`
	}
	straight := capEnds + `, {"id": "point.m", "at_m": [1, 0, 0], "part": {"kind": ""}}`
	bent := capEnds + `, {"id": "point.m", "at_m": [0, 3, 0], "part": {"kind": ""}}`
	a := net(t, straight, run("b", "m", "z", "planned")+","+run("a", "a", "m", "planned"))
	if len(a.Pieces) != 1 || len(a.Joints) != 2 || len(a.Pieces[0].Spans) != 2 || a.Pieces[0].ID != "line.a/piece-1" {
		t.Errorf("straight on: %d pieces, %d joints: %+v", len(a.Pieces), len(a.Joints), a.Pieces)
	}
	if u := a.ByThing["line.b"]; len(u.Pieces) != 1 || len(u.Lines) != 1 {
		t.Errorf("line.b leads to %+v", u)
	}
	a = net(t, straight, run("a", "a", "m", "existing")+","+run("b", "m", "z", "planned"))
	if len(a.Pieces) != 2 || len(a.Joints) != 4 || len(a.Implied) == 0 || a.Implied[0].Article != "copper-l coupling 1/2" || a.Implied[0].State != Planned {
		t.Errorf("old to new: %d pieces, %d joints, %+v", len(a.Pieces), len(a.Joints), a.Implied)
	}
	a = net(t, bent, run("a", "a", "m", "planned")+","+run("b", "m", "z", "planned"))
	if len(a.Pieces) != 2 || len(a.Joints) != 4 || !slices.ContainsFunc(a.Joints, func(j Joint) bool { return j.ID == "point.m/in" && j.Kind == "solder" }) {
		t.Errorf("at an angle: %d pieces, joints %+v", len(a.Pieces), a.Joints)
	}
	// Of coil the same is one piece with a bend there, of 126.87° (cosine −3/5) at five
	// times 16.15 mm: it saves 80.75 mm · (2·2 − 2.2143) = 144.2 mm of 3 m and 5 m; the
	// caps take 6 mm and 0.6 of the outside diameter each.
	a = net(t, bent, strings.ReplaceAll(run("a", "a", "m", "planned")+","+run("b", "m", "z", "planned"), "copper-l", "pe-al-pe"))
	if len(a.Pieces) != 1 || len(a.Pieces[0].Bends) != 1 || a.Pieces[0].Bends[0].ID != "point.m" || !same(cuts(a), []float64{8 - 0.144195 - 2*0.01569}) {
		t.Errorf("a bend at a plain place: %+v", a.Pieces)
	}
	// A ring of plain places alone is one piece, closed by one coupling.
	ring := `{"id": "point.a", "at_m": [0, 0, 0], "part": {"kind": ""}}, {"id": "point.b", "at_m": [0.5, 0, 0], "part": {"kind": ""}}, {"id": "point.c", "at_m": [1, 0, 0], "part": {"kind": ""}}`
	a = net(t, ring, strings.ReplaceAll(run("a", "a", "b", "planned")+","+run("b", "b", "c", "planned")+","+run("c", "c", "a", "planned"), "copper-l", "pe-al-pe"))
	if len(a.Pieces) != 1 || len(a.Joints) != 2 {
		t.Errorf("a ring: %d pieces, %d joints", len(a.Pieces), len(a.Joints))
	}
	// An open end has no joint and says so.
	a = net(t, straight, run("a", "a", "m", "planned"))
	if len(a.Joints) != 1 || a.Pieces[0].To.Joint != "" || len(a.Pieces[0].Notes) == 0 {
		t.Errorf("an open end: %+v", a.Pieces)
	}
}

// A tee bought for copper with a branch of composite pipe is two systems in one joint;
// composite pipe into a copper valve's place by adapters is none.
func TestMixed(t *testing.T) {
	a := net(t, capEnds+`, {"id": "point.t", "at_m": [2, 0, 0], "part": {"kind": "tee"}}, {"id": "point.b", "at_m": [2, 1, 0], "part": {"kind": "drain-cock"}}`,
		`{"id": "line.a", "from": {"point": "point.a"}, "to": {"point": "point.t", "port": "run-1"}, "stock": "copper-l", "size": "1/2", "role": "main"},
		 {"id": "line.b", "from": {"point": "point.t", "port": "run-2"}, "to": {"point": "point.z"}, "stock": "copper-m", "size": "1/2", "role": "main"},
		 {"id": "line.c", "from": {"point": "point.t", "port": "branch"}, "to": {"point": "point.b"}, "stock": "pe-al-pe", "size": "1/2", "role": "drop"}`)
	var mixed []string
	for _, j := range a.Joints {
		if j.Mixed {
			mixed = append(mixed, j.ID)
		}
		if j.Mixed != (j.Problem != "") {
			t.Errorf("%s: mixed %v, problem %q", j.ID, j.Mixed, j.Problem)
		}
	}
	if !slices.Equal(mixed, []string{"point.t/branch"}) {
		t.Errorf("mixed: %v", mixed)
	}
}

// A person's own take-out, measured, takes the place of the estimate: 20 mm where the
// rule gives 6 + 0.6·16.15 mm; and of what was not known.
func TestOwnTakeOuts(t *testing.T) {
	own := &catalog.Shelf{TakeOuts: []catalog.TakeOut{
		{Family: "insert", Kind: "ball-valve", Size: "1/2", CentreEnd: 0.030, Insert: 0.010, TakeOut: 0.020},
		{Family: "insert", Kind: "flexible-link", Size: "1/2", CentreEnd: 0.160, Insert: 0.010, TakeOut: 0.150},
	}}
	for i := range own.TakeOuts {
		own.TakeOuts[i].Source, own.TakeOuts[i].How = "common-practice", "recalled"
	}
	shelf, problems := catalog.Builtin().With(own)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	j := read(t, []byte(`{"dropleg": 1, "title": "own", "net": {"points": [
	 {"id": "point.a", "at_m": [0, 0, 0], "part": {"kind": "ball-valve"}}, {"id": "point.b", "at_m": [1, 0, 0], "part": {"kind": "flexible-link"}}],
	 "runs": [{"id": "line.a", "from": {"point": "point.a", "port": "out"}, "to": {"point": "point.b", "port": "in"}, "stock": "pe-al-pe", "size": "1/2", "role": "link"}]}}`))
	for _, row := range []struct {
		shelf   *catalog.Catalog
		cut     float64
		unknown bool
	}{{catalog.Builtin(), 1 - 0.01569, true}, {shelf, 0.83, false}} {
		p := Of(j, row.shelf).Pieces[0]
		if math.Abs(float64(*p.Cut)-row.cut) > near || (p.To.Unknown != "") != row.unknown {
			t.Errorf("cut %v, want %v; not known: %q", *p.Cut, row.cut, p.To.Unknown)
		}
	}
}

// A coil line's piece is longer than its cut by the rule that the answer names.
func TestStraightening(t *testing.T) {
	a := line(t, "metric", "pe-al-pe-metric", "20", "ball-valve", "out", "in", 5, "")
	p := a.Pieces[0]
	if i := slices.IndexFunc(a.Rules, func(r Rule) bool { return r.Name == "straightening" }); i < 0 ||
		math.Abs(float64(p.Allowance)-a.Rules[i].Value*float64(*p.Cut)) > 1e-9 || p.Allowance == 0 {
		t.Errorf("allowance %v of %v", p.Allowance, *p.Cut)
	}
	l := a.Lines[slices.IndexFunc(a.Lines, func(l Line) bool { return l.Group == Stock })]
	if l.Cuts != 1 || math.Abs(float64(*l.Cut-*p.Cut-p.Allowance)) > 1e-6 {
		t.Errorf("the line of stock: %d pieces, %v m", l.Cuts, *l.Cut)
	}
	if p := line(t, "us", "copper-l", "1/2", "elbow-90", "out", "in", 2, "").Pieces[0]; p.Allowance != 0 {
		t.Error("a stick needs no straightening")
	}
}

// A walk goes from the compressor outwards, down each drop before it goes on.
func TestWalk(t *testing.T) {
	a := net(t, `{"id": "point.c", "at_m": [0, 0, 0], "part": {"kind": "compressor", "compressor": {"free_air": {"m3_s": 0.004}}}},
	 {"id": "point.z", "at_m": [4, 0, 0], "part": {"kind": "cap"}}, {"id": "point.t", "at_m": [2, 0, 0], "part": {"kind": "tee"}},
	 {"id": "point.d", "at_m": [2, 0, -1], "part": {"kind": "drop-elbow"}}`,
		`{"id": "line.b", "from": {"point": "point.z"}, "to": {"point": "point.t", "port": "run-2"}, "stock": "copper-l", "size": "1/2", "role": "main"},
		 {"id": "line.c", "from": {"point": "point.t", "port": "branch"}, "to": {"point": "point.d", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "drop"},
		 {"id": "line.a", "from": {"point": "point.c"}, "to": {"point": "point.t", "port": "run-1"}, "stock": "copper-l", "size": "1/2", "role": "main"}`)
	var ids []string
	for i, j := range a.Joints {
		if j.Number != i+1 {
			t.Errorf("%s is number %d in place %d", j.ID, j.Number, i+1)
		}
		ids = append(ids, j.ID)
	}
	want := []string{
		"point.c/out", "point.c/out-adapter/end", "point.t/run-1", "point.t/branch", "point.d/in", "point.t/run-2", "point.z/in",
	}
	if !slices.Equal(ids, want) {
		t.Errorf("walked %v, want %v", ids, want)
	}
}
