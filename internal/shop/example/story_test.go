package example_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// psi is a pound-force per square inch, Pa (exact by definition to these digits).
const psi = 6894.757293168361

// in finds a named set.
func in(t *testing.T, a *flow.Answer, id job.ID) *flow.Set {
	t.Helper()
	for i := range a.Sets {
		if a.Sets[i].ID == id {
			return &a.Sets[i]
		}
	}
	t.Fatalf("no set %s", id)
	return nil
}

// short lists the tools that fall short anywhere, with their worst margin.
func short(a *flow.Answer) map[job.ID]unit.PressureDiff {
	out := map[job.ID]unit.PressureDiff{}
	for _, w := range a.Tools {
		if w.Set >= 0 && (!w.Known || w.Margin < 0) {
			out[w.Tool] = w.Margin
		}
	}
	return out
}

// TestBoatShop: seven outlets; the long-board sander by itself has its pressure,
// and falls short by a few psi as soon as the other sander runs, nobody else does;
// the hose takes most of it; the lean-to's line freezes before the dryer.
func TestBoatShop(t *testing.T) {
	j := load(t, "boat-shop")
	a := solve(t, j)
	if n := len(j.Outlets); n != 7 {
		t.Errorf("%d outlets", n)
	}
	found := short(a)
	if m, ok := found["tool.long-board"]; !ok || len(found) != 1 || m > -2*psi || m < -6*psi {
		t.Errorf("short are %v, want the long-board sander alone, by 2 to 6 psi", found)
	}
	for id, enough := range map[job.ID]bool{"set.alone": true, "set.fairing": false, "set.friday": false} {
		if got := in(t, a, id).CutIn.Tools[0]; got.Tool != "tool.long-board" || (got.Margin >= 0) != enough {
			t.Errorf("%s: %s has %.1f psi over its least", id, got.Tool, float64(got.Margin)/psi)
		}
	}
	path := in(t, a, "set.friday").CutIn.Tools[0].Path
	top := path[0]
	for _, s := range path {
		if s.Loss > top.Loss {
			top = s
		}
	}
	if top.ID != "hose.far-bench" {
		t.Errorf("most is lost in %s, %.1f psi", top.ID, float64(top.Loss)/psi)
	}
	ix := job.NewIndex(j)
	line := ix.Run("line.lean-to")
	if c := j.ClimateOf(ix.ZoneOf(line)); c.Winter >= 273.15 || line.To.Point != "point.filter" {
		t.Errorf("the lean-to's line stands at %v in winter and ends at %s", c.Winter, line.To.Point)
	}
	if ix.Run("line.stub-press-1").State != "stub" || !ix.Tool("tool.veneer-press").Later {
		t.Error("the veneer press is not to come")
	}
}

// TestTyresAreFedBeforeTheRegulator: they get more than it is set to, near cut-out.
func TestTyresAreFedBeforeTheRegulator(t *testing.T) {
	j := load(t, "boat-shop")
	set := *job.NewIndex(j).Point("point.regulator").Part.Set
	got := in(t, solve(t, j), "set.varnish").CutOut.Tools[2]
	if got.Tool != "tool.tyres" || got.Pressure <= set {
		t.Errorf("%s has %.0f psi, the regulator is set to %.0f", got.Tool, float64(got.Pressure)/psi, float64(set)/psi)
	}
}

// TestFrameGarage: five points of use, four on two walls and one in the ceiling;
// one coil is enough; everyone has the pressure, but the compressor does not keep
// up with blasting while another tool runs.
func TestFrameGarage(t *testing.T) {
	j := load(t, "frame-garage")
	a := solve(t, j)
	ix := job.NewIndex(j)
	at := map[job.ID]int{}
	for _, o := range j.Outlets {
		if on := ix.Point(o.Point).On; on != nil {
			at[on.Wall]++
		} else {
			at["ceiling"]++
		}
	}
	if at["wall.west"] != 2 || at["wall.north"] != 2 || at["ceiling"] != 1 || len(at) != 3 {
		t.Errorf("points of use: %v", at)
	}
	metres := unit.Length(0)
	for i := range j.Net.Runs {
		l, _ := ix.LengthOf(&j.Net.Runs[i])
		metres += l
	}
	if metres < 25 || metres > 50 {
		t.Errorf("%.1f m of pipe, a coil has 50", metres)
	}
	if found := short(a); len(found) != 0 {
		t.Errorf("short: %v", found)
	}
	s := in(t, a, "set.saturday").Supply
	if s.Short <= 0 || s.Rides == nil || *s.Rides < 20 || *s.Rides > 90 {
		t.Errorf("supply on Saturday: %+v", s)
	}
	if s := in(t, a, "set.brazing").Supply; s.Short > 0 {
		t.Errorf("supply on a brazing day: %+v", s)
	}
}

// TestRingMain: thirty outlets and some thirty tools, two machines of which one
// leads, and everyone has the pressure in every set.
func TestRingMain(t *testing.T) {
	j := load(t, "ring-main")
	a := solve(t, j)
	tools := 0
	for _, tool := range j.Tools {
		tools += max(1, tool.Count)
	}
	if len(j.Outlets) != 30 || tools < 28 || tools > 34 {
		t.Errorf("%d outlets, %d tools", len(j.Outlets), tools)
	}
	if found := short(a); len(found) != 0 {
		t.Errorf("short: %v", found)
	}
	ix := job.NewIndex(j)
	lead, lag := ix.Point("point.compressor-1").Part.Compressor, ix.Point("point.compressor-2").Part.Compressor
	if lead.Lead != 1 || lag.Lead != 2 || *lag.CutIn >= *lead.CutIn {
		t.Errorf("lead %+v, lag %+v", lead, lag)
	}
	for _, set := range j.Work.Sets {
		if s := in(t, a, set.ID).Supply; s.Short > 0 {
			t.Errorf("%s: the supply is short by %.1f L/s", set.Name, float64(s.Short)*1e3)
		}
	}
}

// TestRingIsCutInSections: with the two valves of any section shut, its outlets
// are off and all others have air.
func TestRingIsCutInSections(t *testing.T) {
	off := 0
	for k := range 6 {
		j := load(t, "ring-main")
		a, b := job.ID("point.ring-valve-"+string(rune('1'+k))), job.ID("point.ring-valve-"+string(rune('1'+(k+1)%6)))
		for i := range j.Net.Points {
			if p := &j.Net.Points[i]; p.ID == a || p.ID == b {
				p.Part.Shut = true
			}
		}
		m, _ := model.Build(j, catalog.Builtin())
		r, err := m.NewSolver().Solve(context.Background(), model.Case{})
		if err != nil {
			t.Fatal(err)
		}
		dead := 0
		for _, o := range j.Outlets {
			if _, known := m.AtOutlet(r, o.ID); !known {
				dead++
			}
		}
		// The last section holds the feed: with it shut the whole ring is off but that.
		if k < 5 && (dead < 3 || dead > 8) || k == 5 && dead != 30 {
			t.Errorf("between %s and %s %d outlets are off", a, b, dead)
		}
		if k < 5 {
			off += dead
		}
	}
	if off != 30 {
		t.Errorf("%d outlets lie in a section, want 30", off)
	}
}

// TestWordsAreWarm keeps to what people read: every named thing has a name, and
// no figure or id stands where a name is meant.
func TestWordsAreWarm(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		if len(strings.Fields(j.Note)) < 20 {
			t.Errorf("the note says little: %q", j.Note)
		}
		for _, o := range j.Outlets {
			if o.Name == "" || o.Mark == "" || strings.HasPrefix(o.Name, "outlet.") {
				t.Errorf("%s: %q, %q", o.ID, o.Name, o.Mark)
			}
		}
		for _, r := range j.Records {
			if r.By == "" || r.When == "" {
				t.Errorf("%s: who and when?", r.ID)
			}
		}
		if len(j.Records) == 0 || len(j.Work.Sets) < 3 || j.Work.Crew == 0 {
			t.Error("no records, sets or crew")
		}
	})
}

// TestTradeFigures: jobs in US units have hoses of whole feet, receivers of whole
// gallons and settings of whole psi, as they are sold and set.
func TestTradeFigures(t *testing.T) {
	whole := func(t *testing.T, what job.ID, x float64) {
		t.Helper()
		if off := math.Abs(x - math.Round(x)); off > 0.01 {
			t.Errorf("%s: %.3f", what, x)
		}
	}
	each(t, func(t *testing.T, j *job.Job) {
		if j.Site.Units != "us" {
			return
		}
		for _, o := range j.Outlets {
			whole(t, o.ID, float64(o.Hose.Length)/0.3048)
		}
		for _, p := range j.Net.Points {
			if v := p.Part.Volume; v != nil {
				whole(t, p.ID, float64(*v)/3.785411784e-3)
			}
			if s := p.Part.Set; s != nil {
				whole(t, p.ID, float64(*s)/psi)
			}
			if c := p.Part.Compressor; c != nil {
				whole(t, p.ID, float64(*c.CutIn)/psi)
				whole(t, p.ID, float64(*c.CutOut)/psi)
			}
		}
	})
}
