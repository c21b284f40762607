package study_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"sync"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// drawn is Bench with its lines drawn instead of stated, so that places matter.
func drawn() *job.Job {
	j := shoptest.Bench()
	for i := range j.Net.Runs {
		j.Net.Runs[i].Length = nil
	}
	j.Building.Zones = []job.Zone{{ID: "zone.shop", Climate: "heated"}}
	return j
}

func set(id job.ID, key, value string) job.Edit {
	return &job.Change{ID: id, Key: key, Value: json.RawMessage(value)}
}

// edits holds at least one edit of every verb, and one for every part of the
// document that an answer may or may not depend on.
func edits() map[string]job.Edit {
	tool := job.AddOf(&job.Tool{ID: "tool.new", Name: "stapler", Flow: &job.Flow{Value: 0.001}, Share: shoptest.To(unit.Ratio(0.5))})
	point := job.AddOf(&job.Point{ID: "point.new", At: &geom.Point{20, 0, 3}, Part: job.Part{Kind: "cap"}})
	half := unit.Length(2)
	return map[string]job.Edit{
		"add point":       point,
		"add tool":        tool,
		"add set":         job.AddOf(&job.Set{ID: "set.two", Name: "two", Running: []job.InUse{{Tool: "tool.sander", Outlet: "outlet.c"}}}),
		"remove":          &job.Remove{ID: "set.friday"},
		"set size":        set("line.drop-c", "size", `"3/4"`),
		"set hose":        set("hose.c", "item", `"rubber-3/8"`),
		"set hose length": set("hose.c", "length_m", `5`),
		"set valve shut":  set("point.valve", "part.shut", `true`),
		"set tool":        set("tool.sander", "least_kPa_g", `500`),
		"set share":       set("tool.sander", "share", `0.9`),
		"set crew":        set("", "work.crew", `1`),
		"set rare":        set("", "rules.rare", `0.2`),
		"set leak":        set("", "rules.leak", `0.25`),
		"set cutting":     job.AllOf("rules of cutting", set("", "rules.stick_kerf_m", `0.004`), set("", "rules.coil_kerf_m", `0.001`), set("", "rules.end_trim_m", `0.01`), set("", "rules.least_rest_m", `1`)),
		"set spare":       job.AllOf("rules of buying", set("", "rules.spare_fittings", `0.5`), set("", "rules.spare_clips", `0.1`)),
		"set labour":      set("", "prices.labour", `{"rate_1_h": 60, "margin": 0.1, "tax": 0.08, "minutes": [{"for": "thread", "min": 7}]}`),
		"set margin":      set("", "rules.margin_kPa", `20`),
		"set altitude":    set("", "site.altitude_m", `1500`),
		"set hot":         set("", "site.hot_C", `38`),
		"set units":       set("", "site.units", `"us"`),
		"set zone":        set("zone.shop", "summer_C", `35`),
		"set title":       set("", "title", `"another name"`),
		"move":            &job.Move{ID: "point.c", By: &geom.Point{3, 0, 0}},
		"split":           &job.Split{Run: "line.main-1", Along: &half, Part: &job.Part{Kind: "union"}},
		"all":             job.AllOf("two at once", set("line.main-1", "size", `"1"`), set("line.main-2", "size", `"1"`)),
		"add own row": set("", "catalogue", `{"hoses": [{"hose": "rubber-1/4", "words": "own hose", "size": "1/4", "bore_m": 0.008, "outside_m": 0.0127,
			"roughness_m": {"value": 0.00001, "low": 0.000006, "high": 0.00007, "source": "own"},
			"end_bore": {"value": 1, "low": 1, "high": 1, "source": "own"}, "rating_kPa_g": 1600, "max_C": 70, "source": "own"}]}`),
	}
}

// near compares answers: pressures to a hundredth of a pascal, all else to 1e-6
// of its size, which is what the solver promises and more.
var near = cmp.Options{
	cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(math.Abs(a), math.Abs(b))+1e-9 }),
	cmp.Comparer(func(a, b unit.GaugePressure) bool { return math.Abs(float64(a-b)) <= 0.01 }),
	cmp.Comparer(func(a, b unit.AbsPressure) bool { return math.Abs(float64(a-b)) <= 0.01 }),
	cmp.Comparer(func(a, b unit.PressureDiff) bool { return math.Abs(float64(a-b)) <= 0.01 }),
	cmp.Comparer(func(a, b unit.FreeAir) bool { return math.Abs(float64(a-b)) <= 1e-8 }),
	cmp.Comparer(func(a, b unit.Velocity) bool { return math.Abs(float64(a-b)) <= 1e-5 }),
	cmp.Comparer(func(a, b unit.Ratio) bool { return math.Abs(float64(a-b)) <= 1e-6 }),
	cmp.Comparer(func(a, b unit.Duration) bool { return math.Abs(float64(a-b)) <= 1e-3 }),
	cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".Result" }, cmp.Ignore()),
}

// everything asks a study for all answers and fails on none.
func everything(t *testing.T, s *study.Study) *flow.Answer {
	t.Helper()
	ctx := context.Background()
	if _, err := s.Model(ctx); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Demand(ctx); err != nil {
		t.Fatal(err)
	}
	a, err := s.Flow(ctx)
	if err != nil {
		t.Fatal(err)
	}
	through(t, s)
	return a
}

// through asks for what is told of a day and of a year, and of how the lines are held.
func through(t *testing.T, s *study.Study) []any {
	t.Helper()
	ctx := context.Background()
	days, err1 := s.Few(ctx)
	wet, err2 := s.Wet(ctx)
	year, err3 := s.Energy(ctx)
	held, err4 := s.Hold(ctx)
	bought, err5 := s.Purchase(ctx)
	work, err6 := s.Quote(ctx)
	if err := errors.Join(err1, err2, err3, err4, err5, err6); err != nil {
		t.Fatal(err)
	}
	return []any{days, wet, year, held, amounts(bought.Needs), bought.Plans, bought.Supposed, work}
}

// amounts is what has to be there, by article.
func amounts(needs []purchase.Need) map[string][2]float64 {
	out := map[string][2]float64{}
	for i := range needs {
		out[needs[i].Article] = [2]float64{needs[i].Amount, needs[i].Spare}
	}
	return out
}

func TestAfterEqualsAFreshStudy(t *testing.T) {
	cat := catalog.Builtin()
	verbs := map[string]bool{}
	for name, e := range edits() {
		t.Run(name, func(t *testing.T) {
			verbs[e.Form().Verb] = true
			before := study.Of(drawn(), cat)
			everything(t, before)
			after, err := before.After(e)
			if err != nil {
				t.Fatal(err)
			}
			fresh := study.Of(after.Job(), cat)
			if d := cmp.Diff(everything(t, fresh), everything(t, after), near); d != "" {
				t.Errorf("flow differs from a fresh study (-fresh +after):\n%s", d)
			}
			ctx := context.Background()
			a, _ := after.Model(ctx)
			f, _ := fresh.Model(ctx)
			for what, pair := range map[string][2]any{
				"elements":    {f.Elements(), a.Elements()},
				"nodes":       {f.Nodes(), a.Nodes()},
				"pairs":       {f.Pairs(), a.Pairs()},
				"sources":     {f.Sources(), a.Sources()},
				"assumptions": {f.Assumptions(), a.Assumptions()},
				"findings":    {f.Findings(), a.Findings()},
			} {
				if d := cmp.Diff(pair[0], pair[1]); d != "" {
					t.Errorf("%s differ (-fresh +after):\n%s", what, d)
				}
			}
			if d := cmp.Diff(through(t, fresh), through(t, after), near); d != "" {
				t.Errorf("days, water, the year or how lines are held differ from a fresh study (-fresh +after):\n%s", d)
			}
			if after.Index().Job() != after.Job() {
				t.Error("the index is of another revision")
			}
			fp, err1 := fresh.Parts(ctx)
			ap, err2 := after.Parts(ctx)
			if d := cmp.Diff(fp, ap); d != "" || err1 != nil || err2 != nil {
				t.Errorf("parts differ: %v %v\n%s", err1, err2, d)
			}
		})
	}
	for _, v := range []string{"add", "remove", "set", "move", "split", "all"} {
		if !verbs[v] {
			t.Errorf("no edit of verb %q is tried", v)
		}
	}
}

// A timetable is read since the day began: another beginning is another day.
func TestAfterAnotherBeginning(t *testing.T) {
	cat := catalog.Builtin()
	first, err := study.Of(drawn(), cat).After(set(drawn().Tools[0].ID, "hours", `"9:00-9:30"`))
	if err != nil {
		t.Fatal(err)
	}
	everything(t, first)
	after, err := first.After(set("", "work.begin_h", `7`))
	if err != nil {
		t.Fatal(err)
	}
	a, _ := after.Model(t.Context())
	f, _ := study.Of(after.Job(), cat).Model(t.Context())
	if d := cmp.Diff(f.Tools(), a.Tools()); d != "" {
		t.Errorf("tools differ from a fresh study (-fresh +after):\n%s", d)
	}
}

func TestConnect(t *testing.T) {
	cat := catalog.Builtin()
	before := study.Of(drawn(), cat)
	everything(t, before)
	// The far drop is led from the first tee's branch once drop a is gone from it.
	with, err := before.After(job.AllOf("",
		job.AddOf(&job.Point{ID: "point.spare", At: &geom.Point{5, 1, 3}, Part: job.Part{}}),
		&job.Connect{Run: "line.drop-a", End: "from", Point: "point.spare", Port: "out"}))
	if err != nil {
		t.Fatal(err)
	}
	everything(t, with)
	after, err := with.After(&job.Connect{Run: "line.drop-a", End: "from", Point: "point.tee-1", Port: "branch"})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(everything(t, study.Of(after.Job(), cat)), everything(t, after), near); d != "" {
		t.Errorf("flow differs (-fresh +after):\n%s", d)
	}
}

// What an edit cannot have changed is the same value, not computed again.
func TestKept(t *testing.T) {
	ctx := context.Background()
	before := study.Of(drawn(), catalog.Builtin())
	everything(t, before)
	m, _ := before.Model(ctx)
	f, _ := before.Flow(ctx)
	for name, want := range map[string]struct{ model, flow bool }{
		"set title": {true, true}, "set margin": {true, true}, "set leak": {true, false}, "set crew": {true, false},
		"set size": {false, false}, "add own row": {false, false},
	} {
		after, err := before.After(edits()[name])
		if err != nil {
			t.Fatal(err)
		}
		m2, _ := after.Model(ctx)
		f2, _ := after.Flow(ctx)
		if (m2 == m) != want.model || (f2 == f) != want.flow {
			t.Errorf("%s: model kept %v, flow kept %v; want %+v", name, m2 == m, f2 == f, want)
		}
	}
}

func TestRefusedEdit(t *testing.T) {
	s := study.Of(drawn(), catalog.Builtin())
	_, err := s.After(set("line.nowhere", "size", `"1"`))
	var no *job.Refusal
	if !errors.As(err, &no) {
		t.Errorf("err %v", err)
	}
}

func TestManyAskAtOnce(t *testing.T) {
	s := study.Of(drawn(), catalog.Builtin())
	var wg sync.WaitGroup
	got := make([]*flow.Answer, 8)
	for i := range got {
		wg.Go(func() { got[i], _ = s.Flow(context.Background()) })
	}
	wg.Wait()
	for _, a := range got {
		if a == nil || a != got[0] {
			t.Fatal("not all got the one answer")
		}
	}
}

func TestCancelledIsNotKept(t *testing.T) {
	s := study.Of(drawn(), catalog.Builtin())
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := s.Flow(ctx); !errors.Is(err, context.Canceled) {
		t.Fatalf("err %v", err)
	}
	everything(t, s)
}
