package fit_test

import (
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// dropped is the walled shop with a main and two drop legs.
func dropped(t testing.TB) *shop {
	s := walled(t).main()
	s.do(`{"do":"put","what":"tool","thing":{"name":"Blow gun"}}`)
	s.do(`{"do":"drop","from":{"run":"line.main","along_m":6.7},"to":{"wall":"wall.south","along_m":2.6,"up_m":1.1,"off_m":0.1},"size":"1/2","take_off":"bottom","valve":true,"outlet":{"name":"Bench","kind":"wall-block","drain":"drain-cock","tools":["tool.blow-gun"]}}`)
	s.do(`{"do":"drop","from":{"run":"line.main","along_m":4.5},"to":{"at_m":[3.2,0.1,1.1]},"size":"1/2","outlet":{"name":"Lathe"}}`)
	return s
}

func (s *shop) at(id job.ID) geom.Point {
	s.t.Helper()
	at, ok := s.ix().Where(s.ix().Point(id))
	if !ok {
		s.t.Fatalf("no place of %s", id)
	}
	return at
}

func (s *shop) isAt(id job.ID, want geom.Point) {
	s.t.Helper()
	if got := s.at(id); got.Distance(want) > 1e-6 {
		s.t.Errorf("%s is at %v, want %v", id, got, want)
	}
}

// TestADropLegIsDraggedAlongItsMain: the tee slides, the leg stays upright, and the
// metres of line stay the same.
func TestADropLegIsDraggedAlongItsMain(t *testing.T) {
	s := dropped(t)
	before := s.metres()
	s.isAt("point.drop-tee", geom.Point{5.6, 0.1, 2.5})
	s.isAt("point.bench", geom.Point{5.4, 0.1, 1.1})
	s.do(`{"do":"drag","ids":["outlet.bench"],"by_m":[0.5,0,0]}`)
	s.isAt("point.bench", geom.Point{5.9, 0.1, 1.1})
	if p := s.ix().Point("point.bench"); p.On == nil || p.On.Wall != "wall.south" {
		t.Errorf("the outlet is off its wall: %+v", p)
	}
	s.isAt("point.drop-tee", geom.Point{6.1, 0.1, 2.5})
	s.isAt("point.drop-valve", geom.Point{5.9, 0.1, 1.45})
	s.near(s.metres(), before, "metres of line")
	// Higher: the leg is shorter by as much, and the drain comes along.
	s.do(`{"do":"drag","ids":["outlet.bench"],"by_m":[0,0,0.2]}`)
	s.near(s.metres(), before-0.2, "metres of line")
	s.isAt("point.drain-cock", geom.Point{5.9, 0.1, 1.18})
	// Off the wall: the leg gets a step, the main stays where it is.
	s.do(`{"do":"drag","ids":["outlet.bench"],"by_m":[0,0.3,0]}`)
	s.isAt("point.drop-tee", geom.Point{6.1, 0.1, 2.5})
	s.isAt("point.bench", geom.Point{5.9, 0.4, 1.3})
	s.refused(`{"do":"drag","ids":["point.drop-tee"],"by_m":[3,0,0]}`, "nothing would be left", "it can go")
}

// TestADropLegAtTheEndOfALine: the line goes on as the leg. Where the outlet keeps a little
// farther off the wall than the line it hangs straight below its end; the cap that was
// there becomes the leg's elbow.
func TestADropLegAtTheEndOfALine(t *testing.T) {
	for name, end := range map[string]string{"open": "", "capped": "cap"} {
		s := walled(t).main()
		if end != "" {
			for i := range s.job.Net.Points {
				if p := &s.job.Net.Points[i]; p.ID == "point.main-end" {
					p.Part.Kind = end
				}
			}
		}
		s.do(`{"do":"drop","from":{"point":"point.main-end"},"to":{"wall":"wall.south","along_m":0.1,"up_m":1.1,"off_m":0.06},"size":"1/2","take_off":"top","valve":true,"outlet":{"name":"Door"}}`)
		o := s.ix().Outlet("outlet.door")
		s.isAt(o.Point, geom.Point{7.9, 0.1, 1.1})
		if kind := s.kindAt("point.main-end"); kind != "elbow-90" {
			t.Errorf("%s: the leg goes on from a %s, want an elbow", name, kind)
		}
		if p := pressures(t, s.job)["outlet.door"]; !(p > 100e3) {
			t.Errorf("%s: %v Pa at the outlet", name, p)
		}
	}
}

// TestTheMainIsShifted: the whole straight goes up, its legs get longer, its corner
// slides on the riser.
func TestTheMainIsShifted(t *testing.T) {
	s := dropped(t)
	before := s.metres()
	s.do(`{"do":"drag","ids":["line.main-2"],"by_m":[0,0,0.2]}`)
	s.isAt("point.drop-tee", geom.Point{5.6, 0.1, 2.7})
	s.isAt("point.drop-tee-2", geom.Point{3.4, 0.1, 2.7})
	s.isAt("point.main-end", geom.Point{7.9, 0.1, 2.7})
	s.isAt("point.bench", geom.Point{5.4, 0.1, 1.1})
	// Riser and two legs each by 0.2 m.
	s.near(s.metres(), before+0.6, "metres of line")
	s.refused(`{"do":"drag","ids":["line.main-2"],"by_m":[0.4,0,0]}`, "shifted sideways")
}

func TestPlantIsDragged(t *testing.T) {
	s := dropped(t)
	s.do(`{"do":"drag","ids":["point.receiver"],"to":{"at_m":[1.4,0.9,0.6]}}`)
	s.isAt("point.receiver", geom.Point{1.4, 0.9, 0.6})
	s.isAt("point.drop-tee", geom.Point{5.6, 0.1, 2.5})
	for _, c := range geom.Corners(s.ix().Centreline(s.ix().Run("line.main")), 0.1) {
		if d := c.Turn * 57.29578; d < 89 || d > 91 {
			t.Errorf("the riser turns by %.0f°", d)
		}
	}
}

// TestErasedLegLeavesTheMainWhole: the leg goes with all that hung on it, and the
// main is one run again, as long as it was.
func TestErasedLegLeavesTheMainWhole(t *testing.T) {
	bare := walled(t).main()
	whole, points := long(bare, "line.main"), len(bare.job.Net.Points)
	for _, ids := range []string{`"outlet.bench","outlet.lathe"`, `"line.drop","line.drop-2","line.drop-3","outlet.bench","outlet.lathe"`, `"point.bench","point.lathe"`} {
		s := dropped(t)
		s.do(`{"do":"erase","ids":[` + ids + `]}`)
		s.near(long(s, "line.main"), whole, "the main after erasing "+ids)
		if len(s.job.Net.Points) != points || len(s.job.Outlets) != 0 {
			t.Errorf("after erasing %s: %d points, want %d; %d outlets", ids, len(s.job.Net.Points), points, len(s.job.Outlets))
		}
	}
	s := dropped(t)
	s.do(`{"do":"put","what":"set","thing":{"name":"All","running":[{"tool":"tool.blow-gun","outlet":"outlet.bench"}]}}`)
	s.do(`{"do":"erase","ids":["tool.blow-gun"]}`)
	if len(s.job.Work.Sets) != 0 || len(s.ix().Outlet("outlet.bench").Tools) != 0 {
		t.Error("the erased tool is still named")
	}
	s.do(`{"do":"erase","ids":["point.drop-valve"]}`)
	if s.ix().Run("line.drop-2") != nil || s.ix().Run("line.drop") == nil {
		t.Errorf("the leg without its valve: %v", ids(s.job.Net.Runs))
	}
	s.refused(`{"do":"erase","ids":["point.drop-tee"]}`, "3 lines meet", "branch line")
	s.do(`{"do":"erase","ids":["point.receiver"]}`)
	if s.ix().Run("line.main") == nil {
		t.Error("the main went with the receiver")
	}
}

func TestBypass(t *testing.T) {
	s := walled(t).main()
	s.do(`{"do":"plant","kind":"refrigerated-dryer","name":"Dryer","into":{"run":"line.main","along_m":5},"figures":{"rated_flow":{"m3_s":0.02},"rated_at_kPa_g":700,"clean_kPa":10,"loaded_kPa":20}}`)
	before := s.metres()
	made := s.do(`{"do":"bypass","around":["point.dryer"]}`)
	if s.count("ball-valve") != 3 || s.count("tee") != 2 {
		t.Fatalf("%d valves and %d tees", s.count("ball-valve"), s.count("tee"))
	}
	shut := 0
	for _, p := range s.job.Net.Points {
		if p.Part.Shut {
			shut++
		}
	}
	if shut != 1 {
		t.Errorf("%d valves are drawn shut", shut)
	}
	// Out and back 0.4 m each, and 0.9 m from tee to tee.
	s.near(s.metres(), before+0.4+0.9+0.4, "metres of line")
	s.do(`{"do":"erase","ids":["` + string(made[0]) + `"]}`)
	if s.count("tee") != 1 { // the other piece still hangs there, shut
		t.Errorf("%d tees", s.count("tee"))
	}
	// A part at which a valve stands already is passed by with it.
	s = walled(t).main()
	s.do(`{"do":"plant","kind":"particle-filter","name":"Filter","into":{"run":"line.main","along_m":5}}`)
	s.do(`{"do":"plant","kind":"gate-valve","into":{"run":"line.main","along_m":4.8}}`)
	s.do(`{"do":"bypass","around":["point.filter"]}`)
	if s.count("ball-valve") != 2 || s.count("gate-valve") != 1 {
		t.Errorf("%d ball valves, %d gate valves", s.count("ball-valve"), s.count("gate-valve"))
	}
}

func TestStockAndSize(t *testing.T) {
	s := dropped(t)
	s.do(`{"do":"split","run":"line.main-2","along_m":1}`)
	at := s.ix().Run("line.main-2").To.Point
	s.do(`{"do":"stock","runs":["line.main-2"],"size":"1"}`)
	if got := s.kindAt(at); got != "reducer" {
		t.Errorf("1 to 3/4 in line is by a %s", got)
	}
	s.refused(`{"do":"join","point":"`+string(at)+`"}`, "cannot be one", "copper-l 1 ")
	rest := job.ID("")
	for _, e := range s.ix().Ends(at) {
		if e.Run.ID != "line.main-2" {
			rest = e.Run.ID
		}
	}
	s.do(`{"do":"stock","runs":["` + string(rest) + `"],"size":"1"}`)
	if got := s.kindAt(at); got != "joint" {
		t.Errorf("1 to 1 in line is by a %s", got)
	}
	s.do(`{"do":"join","point":"` + string(at) + `"}`)
	// A valve between two sizes gets its reducer beside it.
	s.do(`{"do":"stock","runs":["line.drop"],"size":"3/4"}`)
	if s.count("reducer") != 1 {
		t.Errorf("%d reducers beside the valve", s.count("reducer"))
	}
	// Another stock is coupled on.
	s = dropped(t)
	s.do(`{"do":"split","run":"line.main-2","along_m":1}`)
	s.do(`{"do":"stock","runs":["line.main-2"],"stock":"aluminium-metric","size":"25"}`)
	if got := s.kindAt(at); got != "coupling" {
		t.Errorf("another stock is joined by a %s", got)
	}
	s.refused(`{"do":"stock","runs":["line.main"],"size":"7"}`, "does not come in")
}

func TestReroute(t *testing.T) {
	s := dropped(t)
	s.do(`{"do":"reroute","run":"line.main-2","via":[{"at_m":[6.5,0.1,2.5]},{"at_m":[6.5,1,2.5]},{"at_m":[7.9,1,2.5]}]}`)
	s.near(long(s, "line.main-2"), 0.9+0.9+1.4+0.9, "the way round")
	s.refused(`{"do":"reroute","run":"line.main-2","via":[{"at_m":[6.5,0.8,2.5]}]}`, "turns by", "45° or 90°")
	s.do(`{"do":"reroute","run":"line.main-2"}`)
	s.near(long(s, "line.main-2"), 2.3, "straight again")
}

func TestComposeKeepsWhatStays(t *testing.T) {
	s := dropped(t)
	s.do(`{"do":"compose","outlet":"outlet.bench","hang":[{"kind":"ball-valve"},{"kind":"coupler","item":"industrial-1/4"}],"hose":{"item":"rubber-3/8","length_m":5,"plug":"industrial-1/4"},"tools":["tool.blow-gun"]}`)
	o := *s.ix().Outlet("outlet.bench")
	if len(o.Hang) != 2 || o.Hang[0].ID == "" || o.Hang[1].ID == "" || o.Hose == nil || o.Hose.ID != "hose.bench" {
		t.Fatalf("%+v %+v", o.Hang, o.Hose)
	}
	// The two change places, and a regulator comes between.
	s.do(`{"do":"compose","outlet":"outlet.bench","mark":"Q","hang":[{"kind":"coupler","item":"industrial-1/4"},{"kind":"regulator","set_kPa_g":600},{"kind":"ball-valve"}],"hose":{"item":"rubber-1/2","length_m":5}}`)
	p := *s.ix().Outlet("outlet.bench")
	if p.Mark != "Q" || len(p.Hang) != 3 || p.Hang[0].ID != o.Hang[1].ID || p.Hang[2].ID != o.Hang[0].ID || p.Hose.ID != "hose.bench" || len(p.Tools) != 0 {
		t.Errorf("%+v", p)
	}
	s.do(`{"do":"compose","outlet":"outlet.bench","hose":null}`)
	if p := s.ix().Outlet("outlet.bench"); p.Hose != nil || p.Hang != nil {
		t.Errorf("%+v", p)
	}
	made := s.do(`{"do":"compose","point":"point.main-end","name":"End of the line"}`)
	if o := s.ix().Outlet(made[0]); o == nil || o.Port != "out" {
		t.Errorf("%+v", o)
	}
	s.refused(`{"do":"compose","outlet":"outlet.bench","tools":["tool.none"]}`, "no tool")
	// One mark stands for one place on every sheet and label.
	s.refused(`{"do":"compose","outlet":"`+string(made[0])+`","mark":"q"}`, "mark Q already", "next that is free")
	s.do(`{"do":"compose","outlet":"outlet.bench","mark":"Q","hose":{"item":"rubber-1/2","length_m":5}}`)
}

func TestMarks(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA"} {
		if got := fit.Letters(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
	for want, marks := range map[string][]string{"A": nil, "B": {"A", "C"}, "3": {"1", "2"}} {
		var all []job.Outlet
		for _, m := range marks {
			all = append(all, job.Outlet{Mark: m})
		}
		if got := fit.NextMark(all); got != want {
			t.Errorf("%q: %s, want %s", marks, got, want)
		}
	}
}

func TestStateFollowsToFittings(t *testing.T) {
	s := dropped(t)
	var runs string
	for _, r := range s.job.Net.Runs {
		runs += `,"` + string(r.ID) + `"`
	}
	s.do(`{"do":"state","ids":[` + runs[1:] + `],"state":"existing"}`)
	for _, p := range s.job.Net.Points {
		want := ""
		if slices.Contains([]job.ID{"point.drop-tee", "point.drop-tee-2", "point.main-end"}, p.ID) {
			want = "existing"
		}
		if p.ID != "point.compressor" && p.State != want {
			t.Errorf("%s is %q, want %q", p.ID, p.State, want)
		}
	}
}

// TestARoomGoesWithWhatIsInIt: everything in it keeps its place in it.
func TestARoomGoesWithWhatIsInIt(t *testing.T) {
	s := dropped(t)
	before := s.metres()
	bench, main := s.at("point.bench"), s.at("point.main-end")
	s.do(`{"do":"drag","ids":["room.shop"],"by_m":[2,1,0]}`)
	by := geom.Point{2, 1, 0}
	s.isAt("point.bench", bench.Plus(by))
	s.isAt("point.main-end", main.Plus(by))
	if w := s.wall("wall.south"); w.From.Distance(geom.Flat{10, 1}) > 1e-9 {
		t.Errorf("the wall is at %v", w.From)
	}
	s.near(s.metres(), before, "metres of line")
	s.do(`{"do":"drag","ids":["wall.south"],"by_m":[0,-0.5,0]}`)
	s.isAt("point.bench", bench.Plus(geom.Point{2, 0.5, 0}))
}
