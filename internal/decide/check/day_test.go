package check

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// cureOf applies a cure to a study's job and studies what comes of it anew.
func cureOf(t *testing.T, s *study.Study, c job.Cure) *study.Study {
	t.Helper()
	j := s.Job()
	for _, form := range c.Edits {
		edit, bad := job.ParseEdit(form)
		if bad != nil {
			t.Fatal(bad)
		}
		var err error
		if j, _, err = edit.Apply(j); err != nil {
			t.Fatal(err)
		}
	}
	return study.Of(j, catalog.Builtin())
}

// TestDayCuresHoldOnOtherDays: what was found on a few days keeps its promise on
// forty days that were drawn otherwise.
func TestDayCuresHoldOnOtherDays(t *testing.T) {
	for _, c := range []Check{shortInTheDay, neverFull} {
		s := study.Of(parse(t, pairOf(t, c.Code).fails), catalog.Builtin())
		for _, f := range findings(t, s, c) {
			if len(f.Cures) == 0 {
				t.Errorf("%s: no cure", c.Code)
			}
			for _, cure := range f.Cures {
				if !cure.Cures {
					continue
				}
				a, err := cureOf(t, s, cure).Day(context.Background(), day.Ask{Seed: 99, Days: 40})
				if err != nil {
					t.Fatal(err)
				}
				for _, tool := range a.Tools {
					if tool.Short > s.Job().RuleRare().Value+tool.Within {
						t.Errorf("%q: %s goes short %.4f ± %.4f on other days", cure.Words, tool.ID, tool.Short, tool.Within)
					}
				}
				if !a.Full {
					t.Errorf("%q: cut-out is never reached on other days", cure.Words)
				}
			}
		}
	}
}

// TestSecondReceiver: a receiver in a branch comes with what a receiver needs.
func TestSecondReceiver(t *testing.T) {
	s := study.Of(parse(t, pairOf(t, shortInTheDay.Code).fails), catalog.Builtin())
	found := findings(t, s, shortInTheDay)[0]
	i := slices.IndexFunc(found.Cures, func(c job.Cure) bool { return strings.Contains(c.Words, "second receiver") })
	if i < 0 {
		t.Fatalf("none is proposed: %+v", found.Cures)
	}
	after := cureOf(t, s, found.Cures[i])
	if bad := job.Validate(after.Job(), catalog.Builtin()); worstOf(bad) == job.Fault {
		t.Errorf("the job is broken: %+v", bad)
	}
	m, err := after.Model(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	all := unit.Volume(0)
	for _, r := range m.Receivers() {
		all += r.Volume
	}
	if len(m.Receivers()) != 2 || float64(all) < 0.2399 || float64(all) > 0.2401 {
		t.Errorf("%d receivers of %v m³; want 2 of 0.24", len(m.Receivers()), all)
	}
	before := leads(findings(t, s, All()...))
	for _, f := range findings(t, after, noReliefValve, reliefOverRating, overRating, receiverWithoutDrain, notModelled, shortOfPressure, noAnswer) {
		if lead := string(f.Severity) + " " + string(f.Where[0]); f.Severity != job.Note && !slices.Contains(before, lead) {
			t.Errorf("it brings %s: %s", f.Code, f.Title)
		}
	}
}

// TestOneMatterOnce: of a supply that is too small there is one finding worse than a note.
func TestOneMatterOnce(t *testing.T) {
	for _, code := range []string{neverFull.Code, shortInTheDay.Code} {
		worse := 0
		for _, f := range findings(t, study.Of(parse(t, pairOf(t, code).fails), catalog.Builtin()), All()...) {
			if slices.Contains([]string{neverFull.Code, shortInTheDay.Code, motorOverworked.Code, supplyShort.Code}, f.Code) && f.Severity != job.Note {
				worse++
			}
		}
		if worse != 1 {
			t.Errorf("%s: %d findings for one matter", code, worse)
		}
	}
}

// TestStatedClass: a class that the job states is a fault where it is missed, and each
// dryer that is proposed meets it when the water is worked out anew.
func TestStatedClass(t *testing.T) {
	for class, words := range map[string]string{"3": "at the point of use", "2": "regenerating"} {
		j := parse(t, pairOf(t, waterClassMissed.Code).passes)
		for i := range j.Tools {
			if j.Tools[i].ID == "tool.sander" {
				j.Tools[i].Water = class
			}
		}
		s := study.Of(j, catalog.Builtin())
		found := findings(t, s, waterClassMissed)
		if len(found) != 1 || found[0].Severity != job.Fault || found[0].Where[0] != "outlet.a" {
			t.Fatalf("found %+v", found)
		}
		if cures := found[0].Cures; len(cures) == 0 || !strings.Contains(cures[0].Words, words) {
			t.Errorf("class %s: cures %+v", class, cures)
		}
		for _, c := range found[0].Cures {
			a, err := cureOf(t, s, c).Wet(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			for _, season := range a.Seasons {
				for _, o := range season.Outlets {
					for _, n := range o.Needs {
						if !n.Met {
							t.Errorf("%q: %s at %s has class %s in the %s season", c.Words, n.Tool, o.ID, o.Class, season.Name)
						}
					}
				}
			}
		}
	}
}

// TestWhereItFreezes: a receiver in the cold is told with the water that gathers there,
// and the hot line from the compressor to it is no line that freezes.
func TestWhereItFreezes(t *testing.T) {
	j := parse(t, pairOf(t, lineMayFreeze.Code).passes)
	for i := range j.Building.Zones {
		j.Building.Zones[i].Winter = new(unit.Celsius(-6))
	}
	found := findings(t, study.Of(j, catalog.Builtin()), lineMayFreeze)
	var where []job.ID
	for _, f := range found {
		where = append(where, f.Where...)
		if strings.Contains(f.Title, "before its drain") && !slices.Contains(f.Where, "point.receiver") {
			t.Errorf("%q does not name the receiver", f.Title)
		}
	}
	if !slices.Contains(where, "point.receiver") || slices.Contains(where, "line.delivery") {
		t.Errorf("it freezes at %v", where)
	}
}

// TestBigShopsAreNotKeptWaiting: where days would take long the checks do without them.
func TestBigShopsAreNotKeptWaiting(t *testing.T) {
	s := study.Of(shoptest.Drawn(107), catalog.Builtin())
	ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
	defer stop()
	if _, err := s.Flow(ctx); err != nil {
		t.Fatal(err)
	}
	if found, err := RunThese(ctx, s, unit.Metric, []Check{neverFull, shortInTheDay, motorOverworked}); err != nil || len(found) > 0 {
		t.Errorf("found %+v, %v", found, err)
	}
}

// TestAmple: of a shop that needs no days to be judged, forty days find nothing.
func TestAmple(t *testing.T) {
	ctx := context.Background()
	s := study.Of(parse(t, pairOf(t, shortInTheDay.Code).passes), catalog.Builtin())
	c, err := newCase(ctx, s, unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	if ok, err := c.ample(ctx); err != nil || !ok {
		t.Fatalf("ample %v, %v", ok, err)
	}
	a, err := s.Day(ctx, day.Ask{Seed: 7, Days: 40})
	if err != nil || !a.Enough(s.Job().RuleRare().Value) {
		t.Errorf("the days find %+v, %v", a.Tools, err)
	}
	for _, code := range []string{neverFull.Code, shortInTheDay.Code, motorOverworked.Code} {
		c, err := newCase(ctx, study.Of(parse(t, pairOf(t, code).fails), catalog.Builtin()), unit.Metric)
		if err != nil {
			t.Fatal(err)
		}
		if ok, err := c.ample(ctx); err != nil || ok {
			t.Errorf("%s: ample %v, %v", code, ok, err)
		}
	}
}
