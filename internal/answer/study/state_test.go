package study_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"

	"github.com/google/go-cmp/cmp"
)

// unranged is a state without the ranges, which State does not work out.
func unranged(s *flow.State) flow.State {
	c := *s
	c.Tools = append([]flow.Tool(nil), s.Tools...)
	for i := range c.Tools {
		c.Tools[i].Range = nil
	}
	return c
}

// sameState says how a state worked out alone differs from the one of the full
// answer of a fresh study.
func sameState(t *testing.T, s *study.Study, full *flow.Answer, key string, supply model.Supply) string {
	t.Helper()
	shown, err := s.State(context.Background(), key, supply)
	if err != nil {
		t.Fatalf("%s %s: %v", key, supply, err)
	}
	want := full.Find(shown.Set.Key())
	if want == nil {
		return "a set that is not among all: " + shown.Set.Key()
	}
	return cmp.Diff(want.Set, shown.Set, near) + cmp.Diff(unranged(want.State(supply)), unranged(shown.State), near)
}

// What is shown of one set is what the full answer has of it, on every edit, whether
// it was worked out alone or taken from the full answer.
func TestStateIsThatOfTheFullAnswer(t *testing.T) {
	for name, e := range edits() {
		t.Run(name, func(t *testing.T) {
			before := study.Of(drawn(), catalog.Builtin())
			everything(t, before)
			after, err := before.After(e)
			if err != nil {
				t.Fatal(err)
			}
			full := everything(t, study.Of(after.Job(), catalog.Builtin()))
			check := func() {
				for i := range full.Sets {
					for _, supply := range []model.Supply{model.CutIn, model.CutOut} {
						if d := sameState(t, after, full, full.Sets[i].Key(), supply); d != "" {
							t.Errorf("%s %s (-full +shown):\n%s", full.Sets[i].Key(), supply, d)
						}
					}
				}
			}
			check()
			everything(t, after)
			check()
		})
	}
}

// The worst set is supposed to be the one of the revision before, and says so, until
// the full answer was asked for.
func TestSupposedWorst(t *testing.T) {
	ctx := context.Background()
	s := study.Of(drawn(), catalog.Builtin())
	first, err := s.State(ctx, "", "")
	if err != nil || first.Supposed {
		t.Fatalf("the first: %+v %v", first, err)
	}
	// The wrench's hose so short and the sander's so long that another set is the worst.
	after, err := s.After(job.AllOf("", set("hose.c", "length_m", `0.5`), set("hose.b", "length_m", `60`), set("hose.b", "item", `"rubber-1/4"`)))
	if err != nil {
		t.Fatal(err)
	}
	shown, err := after.State(ctx, "", "")
	if err != nil || !shown.Supposed || shown.Set.Key() != first.Set.Key() {
		t.Fatalf("after: %+v %v", shown, err)
	}
	if again, _ := after.State(ctx, shown.Set.Key(), ""); again.Supposed {
		t.Error("a set asked for by name is supposed")
	}
	full := everything(t, after)
	sure, err := after.State(ctx, "", "")
	if err != nil || sure.Supposed || sure.Set.Key() != full.Sets[full.Worst].Key() {
		t.Errorf("with the full answer: %+v %v", sure, err)
	}
	if sure.Set.Key() == shown.Set.Key() {
		t.Error("the worst set stayed the same: this test shows nothing")
	}
	// Where the set is gone the full answer is asked.
	if first.Set.Key() != "worst-tool.sander" {
		t.Fatalf("the worst is %s: the rest of this test takes away another", first.Set.Key())
	}
	none, err := s.After(job.AllOf("", &job.Remove{ID: "set.friday"}, set("outlet.b", "tools", `["tool.blow"]`), set("outlet.c", "tools", `["tool.wrench"]`)))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := none.State(ctx, "", ""); err != nil || got.Supposed || got.Set.Subject == "tool.sander" {
		t.Errorf("gone: %+v %v", got, err)
	}
	var missing *study.NoSet
	if _, err := none.State(ctx, "worst-tool.sander", ""); !errors.As(err, &missing) {
		t.Errorf("a set that is gone: %v", err)
	}
}

func TestStateOfAShopWithoutTools(t *testing.T) {
	j := drawn()
	j.Tools, j.Work.Sets = nil, nil
	for i := range j.Outlets {
		j.Outlets[i].Tools = nil
	}
	shown, err := study.Of(j, catalog.Builtin()).State(context.Background(), "", "")
	if err != nil || shown.State != nil || shown.Supply != model.CutIn {
		t.Errorf("%+v %v", shown, err)
	}
}

// someEdit is an edit as a hand makes them, not always one that fits.
func someEdit(r *rand.Rand, n int, j *job.Job) job.Edit {
	run := &j.Net.Runs[r.IntN(len(j.Net.Runs))]
	point := &j.Net.Points[r.IntN(len(j.Net.Points))]
	outlet := &j.Outlets[r.IntN(len(j.Outlets))]
	tool := &j.Tools[r.IntN(len(j.Tools))]
	switch r.IntN(9) {
	case 0:
		return &job.Move{ID: point.ID, By: &geom.Point{r.Float64() - 0.5, r.Float64() - 0.5, 0}}
	case 1:
		return set(run.ID, "size", []string{`"1/2"`, `"3/4"`, `"1"`}[r.IntN(3)])
	case 2:
		return set(outlet.Hose.ID, "length_m", fmt.Sprint(1+r.IntN(20)))
	case 3:
		return set(point.ID, "part.shut", fmt.Sprint(r.IntN(5) == 0))
	case 4:
		return set(tool.ID, "share", fmt.Sprint(0.05+0.4*r.Float64()))
	case 5:
		return set("", "site.altitude_m", fmt.Sprint(r.IntN(2000)))
	case 6:
		if n%8 > 0 {
			return set("point.filter", "part.wear", `"loaded"`)
		}
		return &job.Remove{ID: run.ID}
	case 7:
		return set(outlet.ID, "tools", fmt.Sprintf(`["%s"]`, tool.ID))
	}
	along := unit.Length(0.1 + 0.5*r.Float64())
	tee, end := job.ID(fmt.Sprintf("point.tee-new-%d", n)), job.ID(fmt.Sprintf("point.cap-new-%d", n))
	return job.AllOf("a line with a tee",
		&job.Split{Run: run.ID, Along: &along, Point: tee, Part: &job.Part{Kind: "tee"}, In: "run-1", Out: "run-2"},
		job.AddOf(&job.Point{ID: end, At: &geom.Point{4 + r.Float64(), 4, 3}, Part: job.Part{Kind: "cap"}}),
		job.AddOf(&job.Run{ID: job.ID(fmt.Sprintf("line.new-%d", n)), From: job.End{Point: tee, Port: "branch"}, To: job.End{Point: end}, Stock: "copper-l", Size: "1/2", Role: "branch"}))
}

// Two hundred edits one after another, and the study is still that of the job, though
// it carries answers and starts from revision to revision.
func TestChainOfEditsEqualsAFreshStudy(t *testing.T) {
	for name, j := range map[string]*job.Job{"three drops": drawn(), "a drawn hall": shoptest.Drawn(6)} {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			s := study.Of(j, catalog.Builtin())
			made, fed := 0, 0
			for n := 0; made < 200; n++ {
				next, err := s.After(someEdit(r, n, s.Job()))
				var no *job.Refusal
				if errors.As(err, &no) {
					continue
				}
				if err != nil {
					t.Fatal(err)
				}
				s = next
				made++
				if _, err := s.State(context.Background(), "", []model.Supply{model.CutIn, model.CutOut}[r.IntN(2)]); err != nil {
					t.Fatal(err)
				}
				if made%20 != 0 {
					continue
				}
				full := everything(t, study.Of(s.Job(), catalog.Builtin()))
				for i := range full.Sets {
					for _, tool := range full.Sets[i].CutIn.Tools {
						if tool.Flow > 0 {
							fed++
						}
					}
					if d := sameState(t, s, full, full.Sets[i].Key(), model.CutIn); d != "" {
						t.Fatalf("after %d edits, %s (-full +shown):\n%s", made, full.Sets[i].Key(), d)
					}
				}
				if d := cmp.Diff(full, everything(t, s), near); d != "" {
					t.Fatalf("after %d edits (-fresh +after):\n%s", made, d)
				}
			}
			if fed < 20 {
				t.Errorf("air reaches tools %d times in all: the edits have taken the shop apart", fed)
			}
		})
	}
}

// Whatever job comes next, the study is that of the job.
func TestNextOfAnotherJob(t *testing.T) {
	s := study.Of(drawn(), catalog.Builtin())
	everything(t, s)
	for name, j := range map[string]*job.Job{"ring": shoptest.Ring(4), "hall": shoptest.Drawn(3), "the same again": drawn()} {
		next, fresh := s.Next(j), study.Of(j, catalog.Builtin())
		if d := cmp.Diff(everything(t, fresh), everything(t, next), near); d != "" || next.Job() != j {
			t.Errorf("%s (-fresh +next):\n%s", name, d)
		}
	}
}
