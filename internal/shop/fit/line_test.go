package fit_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// ix indexes the shop as it stands.
func (s *shop) ix() *job.Index { return job.NewIndex(s.job) }

// kindAt is the kind of part at a point.
func (s *shop) kindAt(id job.ID) string {
	s.t.Helper()
	p := s.ix().Point(id)
	if p == nil {
		s.t.Fatalf("no point %s", id)
	}
	return p.Part.Kind
}

// metres is the length of all runs by their drawing.
func (s *shop) metres() float64 {
	total := 0.0
	for i := range s.job.Net.Runs {
		l, _ := s.ix().LengthOf(&s.job.Net.Runs[i])
		total += float64(l)
	}
	return total
}

// count is how many points have a part of a kind.
func (s *shop) count(kind string) int {
	n := 0
	for _, p := range s.job.Net.Points {
		if p.Part.Kind == kind {
			n++
		}
	}
	return n
}

func (s *shop) near(got, want float64, what string) {
	s.t.Helper()
	if math.Abs(got-want) > 1e-6 {
		s.t.Errorf("%s: %.6f, want %.6f", what, got, want)
	}
}

// solve says whether the model of a job can be solved with nothing running.
func solve(j *job.Job) error {
	m, _ := model.Build(j, catalog.Builtin())
	_, err := m.NewSolver().Solve(context.Background(), model.Case{})
	return err
}

// pressures solves the shop with all tools of its outlets running and gives the
// pressure at each outlet, NaN where none is known.
func pressures(t testing.TB, j *job.Job) map[job.ID]float64 {
	t.Helper()
	m, _ := model.Build(j, catalog.Builtin())
	var running []job.InUse
	for _, o := range j.Outlets {
		for _, tool := range o.Tools {
			running = append(running, job.InUse{Tool: tool, Outlet: o.ID})
			break
		}
	}
	r, err := m.NewSolver().Solve(context.Background(), model.Case{Running: running})
	if err != nil {
		t.Fatalf("solving: %v", err)
	}
	out := map[job.ID]float64{}
	for _, o := range j.Outlets {
		p, ok := m.AtOutlet(r, o.ID)
		out[o.ID] = math.NaN()
		if ok && r.Solved {
			out[o.ID] = float64(p)
		}
	}
	return out
}

// walled is a room of 8 by 6 m with compressor and receiver.
func walled(t testing.TB) *shop {
	s := emptyShop(t)
	s.do(`{"do":"room","name":"Shop","corner_m":[0,0],"size_m":[8,6],"ceiling_m":3,"walls":{"thickness_m":0.2}}`)
	s.do(`{"do":"plant","kind":"compressor","item":"piston-2.2","name":"Compressor","at":{"at_m":[0.5,0.5,0.6]},"state":"existing"}`)
	s.do(`{"do":"plant","kind":"receiver","name":"Receiver","at":{"at_m":[1.2,0.5,0.6]},"figures":{"volume_L":100}}`)
	s.do(`{"do":"line","from":{"point":"point.compressor"},"to":{"point":"point.receiver"},"stock":"copper-l","size":"3/4","role":"link","flexible":true}`)
	return s
}

// main adds a main from the receiver up and along the south and east wall.
func (s *shop) main() *shop {
	s.do(`{"do":"line","from":{"point":"point.receiver"},"via":[{"at_m":[1.6,0.5,0.6]},{"at_m":[1.6,0.5,2.5]},{"at_m":[1.6,0.1,2.5]}],"to":{"place":{"at_m":[7.9,0.1,2.5]}},"stock":"copper-l","size":"3/4","role":"main"}`)
	return s
}

// TestFromAnEmptyRoomToAir: gestures alone build a line with three outlets at which
// there is pressure.
func TestFromAnEmptyRoomToAir(t *testing.T) {
	s := walled(t).main()
	s.do(`{"do":"put","what":"tool","thing":{"name":"Die grinder","item":"die-grinder"}}`)
	s.do(`{"do":"drop","from":{"run":"line.main","along_m":4.5},"to":{"at_m":[3.2,0.06,1.1]},"size":"1/2","valve":true,"outlet":{"name":"Bench","mark":"A",
		"hang":[{"kind":"coupler","item":"industrial-1/4"}],"hose":{"item":"rubber-3/8","length_m":5,"plug":"industrial-1/4","socket":"industrial-1/4"},"tools":["tool.die-grinder"]}}`)
	s.do(`{"do":"drop","from":{"run":"line.main","along_m":3},"to":{"at_m":[2.2,0.06,1.1]},"size":"1/2","outlet":{"name":"Lathe","mark":"B"}}`)
	s.do(`{"do":"drop","from":{"point":"point.main-end"},"to":{"at_m":[7.9,0.1,1.1]},"size":"1/2","outlet":{"name":"Door","mark":"C"}}`)
	if got := s.count("tee"); got != 2 {
		t.Errorf("%d tees, want 2", got)
	}
	p := pressures(t, s.job)
	for _, o := range []job.ID{"outlet.bench", "outlet.lathe", "outlet.door"} {
		if !(p[o] > 100e3) {
			t.Errorf("%s has %v Pa", o, p[o])
		}
	}
	if !(p["outlet.bench"] < p["outlet.lathe"]) {
		t.Errorf("the outlet in use has %v Pa, not less than one nearer to the receiver that is not, %v", p["outlet.bench"], p["outlet.lathe"])
	}
	// The leg for the bench: up 0.1, over, down to its valve, and on to the outlet.
	for _, r := range s.job.Net.Runs {
		if r.Role == "drop" && r.Size != "1/2" {
			t.Errorf("%s is of size %s", r.ID, r.Size)
		}
	}
}

func ids(runs []job.Run) []job.ID {
	var out []job.ID
	for _, r := range runs {
		out = append(out, r.ID)
	}
	return out
}

func TestALineCutsItsTees(t *testing.T) {
	s := walled(t).main()
	before := s.metres()
	made := s.do(`{"do":"line","from":{"run":"line.main","along_m":4.7},"to":{"place":{"at_m":[4,3,2.5]}}}`)
	// Along 4.7 m: 0.4 + 1.9 + 0.4 are up and over, so that 2 m on the wall are x = 3.6;
	// to (4, 3) that would be no right angle.
	_ = made
	ix := s.ix()
	up := ix.Run("line.main")
	tee := ix.Point(up.To.Point)
	if tee.Part.Kind != "tee" || len(ix.Ends(tee.ID)) != 3 {
		t.Fatalf("%s is a %s of %d ends", tee.ID, tee.Part.Kind, len(ix.Ends(tee.ID)))
	}
	ports := map[string]job.ID{}
	for _, e := range ix.Ends(tee.ID) {
		ports[e.Port] = e.Run.ID
	}
	if ports["run-1"] != "line.main" || ports["branch"] != made[0] {
		t.Errorf("ports of the tee: %v, the branch is %s", ports, made[0])
	}
	long := geom.Point{0.4, 2.9, 0}.Length()
	s.near(s.metres(), before+long, "metres of line")
	// A fourth line makes a cross of it.
	s.do(`{"do":"line","from":{"point":"` + string(tee.ID) + `"},"to":{"place":{"at_m":[3.6,0.1,1.5]}}}`)
	if got := s.kindAt(tee.ID); got != "cross" {
		t.Errorf("four lines meet at a %s", got)
	}
	s.refused(`{"do":"line","from":{"point":"`+string(tee.ID)+`"},"to":{"place":{"at_m":[3.6,0.1,2.9]}}}`, "no fitting joins more than four", "0.1 m further")
}

func TestALooseEndIsContinued(t *testing.T) {
	s := walled(t).main()
	n := len(s.job.Net.Points)
	end := s.ix().Run("line.main").To.Point
	made := s.do(`{"do":"line","from":{"point":"` + string(end) + `"},"to":{"place":{"at_m":[7.9,5.9,2.5]}},"role":"main"}`)
	if made[0] != "line.main" || len(s.job.Net.Points) != n {
		t.Errorf("made %v, %d points where there were %d", made, len(s.job.Net.Points), n)
	}
	s.near(float64(long(s, "line.main")), 0.4+1.9+0.4+6.3+5.8, "the main")
	// Of another size it is a reducer, and a run of its own.
	end = s.ix().Run("line.main").To.Point
	made = s.do(`{"do":"line","from":{"point":"` + string(end) + `"},"to":{"place":{"at_m":[7.9,5.9,1.5]}},"size":"1/2","role":"branch"}`)
	if got := s.kindAt(end); got != "elbow-90" {
		t.Errorf("a smaller line that turns goes on by a %s", got)
	}
	end = s.ix().Run(made[0]).To.Point
	s.do(`{"do":"line","from":{"point":"` + string(end) + `"},"to":{"place":{"at_m":[7.9,5.9,0.5]}},"size":"3/8","role":"branch"}`)
	if got := s.kindAt(end); got != "reducer" {
		t.Errorf("a smaller line that goes on straight does so by a %s", got)
	}
	for _, e := range s.ix().Ends(end) {
		if want := map[string]string{"1/2": "in", "3/8": "out"}[e.Run.Size]; e.Port != want {
			t.Errorf("size %s is at the reducer's port %q, want %q", e.Run.Size, e.Port, want)
		}
	}
}

func long(s *shop, run job.ID) float64 {
	l, _ := s.ix().LengthOf(s.ix().Run(run))
	return float64(l)
}

func TestCornersAsAsked(t *testing.T) {
	line := `{"do":"line","from":{"place":{"at_m":[1,1,2]}},"via":[{"at_m":[4,1,2]},{"at_m":[5,2,2]}],"to":{"place":{"at_m":[5,5,2]}},"stock":"%s","size":"%s","role":"main"%s}`
	for _, row := range []struct {
		stock, size, how string
		runs             int
		elbows           map[string]int
	}{
		{"copper-l", "3/4", "", 1, nil},
		{"copper-l", "3/4", `,"corners":"elbow"`, 3, map[string]int{"elbow-45": 2}},
		{"pe-al-pe-metric", "20", "", 1, nil},
		{"pe-al-pe-metric", "20", `,"corners":"sweep"`, 1, nil},
		{"pe-al-pe-metric", "20", `,"corners":"elbow"`, 3, map[string]int{"elbow-45": 2}},
	} {
		s := walled(t)
		had := len(s.job.Net.Runs)
		s.do(fmt.Sprintf(line, row.stock, row.size, row.how))
		if got := len(s.job.Net.Runs) - had; got != row.runs {
			t.Errorf("%s%s: %d runs, want %d", row.stock, row.how, got, row.runs)
		}
		for kind, n := range row.elbows {
			if got := s.count(kind); got != n {
				t.Errorf("%s%s: %d of %s, want %d", row.stock, row.how, got, kind, n)
			}
		}
	}
}

func TestLineRefusals(t *testing.T) {
	s := walled(t).main()
	for gesture, words := range map[string][]string{
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"to":{"place":{"at_m":[1,1,2]}},"stock":"copper-l","size":"3/4"}`:                                {"no length"},
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"via":[{"at_m":[3,1,2]}],"to":{"place":{"at_m":[4,3.7,2]}},"stock":"copper-l","size":"3/4"}`:     {"turns by 70°", "45° or 90°"},
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"via":[{"at_m":[3,1,2]}],"to":{"place":{"at_m":[2,1,2]}},"stock":"pe-al-pe-metric","size":"20"}`: {"turn back on itself"},
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"to":{"place":{"at_m":[2,1,2]}}}`:                                                                {"not said what the line is of"},
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"to":{"place":{"at_m":[2,1,2]}},"stock":"copper-x","size":"3/4"}`:                                {"no stock", "copper-"},
		`{"do":"line","from":{"place":{"at_m":[1,1,2]}},"to":{"place":{"at_m":[2,1,2]}},"stock":"copper-l","size":"20 mm"}`:                              {"does not come in", "3/4"},
		`{"do":"line","from":{"run":"line.main","along_m":40},"to":{"place":{"at_m":[2,1,2]}}}`:                                                          {"does not reach 40 m", "9 m"},
		`{"do":"line","from":{"point":"point.compressor"},"to":{"place":{"at_m":[2,1,2]}}}`:                                                              {"no free end", "line.link"},
		`{"do":"line","from":{"point":"point.receiver","port":"out"},"to":{"place":{"at_m":[2,1,2]}}}`:                                                   {"is taken", "free is"},
		`{"do":"line","from":{"run":"line.main","along_m":3},"to":{"place":{"wall":"wall.nowhere","along_m":1,"up_m":1}}}`:                               {"no wall"},
		`{"do":"drop","from":{"run":"line.main","along_m":4},"to":{"at_m":[3,0.06,2.6]},"outlet":{"name":"High"}}`:                                       {"not below", "2.5"},
		`{"do":"drop","from":{"run":"line.main","along_m":4},"to":{"at_m":[3,0.06,1]},"outlet":{"name":""}}`:                                             {"no name"},
		`{"do":"plant","kind":"drain-cock","into":{"run":"line.main","along_m":4}}`:                                                                      {"one opening"},
		`{"do":"plant","kind":"bal-valve","at":{"at_m":[1,1,1]}}`:                                                                                        {"no kind", "ball-valve"},
		`{"do":"join","point":"point.receiver"}`:           {"is set up there"},
		`{"do":"bypass","around":["point.compressor"]}`:    {"1 lines come to it"},
		`{"do":"erase","ids":["line.nowhere"]}`:            {"no thing"},
		`{"do":"drag","ids":["line.main"],"by_m":[0,0,0]}`: {"not move at all"},
	} {
		s.refused(gesture, words...)
	}
}

func TestStubsAreCapped(t *testing.T) {
	s := walled(t).main()
	made := s.do(`{"do":"line","from":{"run":"line.main","along_m":5},"to":{"place":{"at_m":[3.9,0.1,2]}},"role":"stub","state":"stub"}`)
	end := s.ix().Run(made[0]).To.Point
	if got := s.kindAt(end); got != "cap" {
		t.Fatalf("a stub ends at a %s", got)
	}
	s.do(`{"do":"line","from":{"point":"` + string(end) + `"},"to":{"place":{"at_m":[3.9,0.1,1.5]}},"role":"branch"}`)
	if got := s.kindAt(end); got != "joint" {
		t.Errorf("the stub carried on is at a %s", got)
	}
	if st := s.ix().Point(s.ix().Run("line.main").To.Point).State; st != "stub" {
		t.Errorf("the tee of the stub is %q", st)
	}
}

func TestExistingStaysExisting(t *testing.T) {
	s := walled(t).main()
	s.do(`{"do":"state","ids":["line.main"],"state":"existing"}`)
	s.do(`{"do":"line","from":{"run":"line.main","along_m":5},"to":{"place":{"at_m":[3.9,3,2.5]}}}`)
	for _, r := range s.job.Net.Runs {
		if want := map[string]string{"main": "existing", "branch": ""}[r.Role]; r.Role != "link" && r.State != want {
			t.Errorf("%s is %q, want %q", r.ID, r.State, want)
		}
	}
	if got := s.ix().Point(s.ix().Run("line.main").To.Point).State; got != "" {
		t.Errorf("the new tee is %q", got)
	}
}

func TestBothEndsOnOneRun(t *testing.T) {
	s := walled(t).main()
	made := s.do(`{"do":"line","from":{"run":"line.main","along_m":8},"via":[{"at_m":[6.9,1,2.5]},{"at_m":[3.9,1,2.5]}],"to":{"run":"line.main","along_m":5},"role":"branch"}`)
	ix := s.ix()
	a, _ := ix.Where(ix.Point(ix.Run(made[0]).From.Point))
	b, _ := ix.Where(ix.Point(ix.Run(made[0]).To.Point))
	s.near(a[0], 6.9, "from")
	s.near(b[0], 3.9, "to")
	if s.count("tee") != 2 {
		t.Errorf("%d tees", s.count("tee"))
	}
	if slices.Contains(ids(s.job.Net.Runs), "line.main-4") {
		t.Error("the main is cut more often than twice")
	}
}
