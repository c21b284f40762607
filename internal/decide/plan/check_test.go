package plan_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/plan"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// notThePlans are findings that no way of laying and sizing lines mends, and why.
var notThePlans = map[string]string{
	"motor-overworked":       "the compressor is too small or too large for what the tools take",
	"short-in-the-day":       "the compressor delivers too little over a day",
	"supply-short":           "the compressor delivers too little",
	"dryer-overloaded":       "the dryer is too small",
	"line-may-freeze":        "the plant stands in the cold, undried",
	"water-class-missed":     "there is no dryer",
	"loose-outlet":           "what an outlet hangs at is the person's choice",
	"couplers-do-not-mate":   "a tool has its own plug",
	"blow-gun-unlimited":     "it is a matter of the nozzle",
	"reading-differs":        "it is a reading of the lines that stood there",
	"regulator-starved":      "a regulator is set higher than the cut-in leaves at it",
	"set-higher-than-needed": "the pressure switch is set by hand",
}

// slowChecks work days through: for the largest example they take a minute, and tell of the
// compressor alone.
var slowChecks = []string{"motor-overworked", "short-in-the-day", "never-full"}

// Every proposed plan passes all checks with no finding worse than a note, but for what
// lines and sizes cannot mend.
func TestEveryProposedPlanPassesTheChecks(t *testing.T) {
	for _, e := range example.All() {
		for _, keep := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, kept %v", e.Name, keep), func(t *testing.T) {
				raw, _ := example.Read(e.Name)
				j, _ := job.Parse(raw)
				if keep && !slices.ContainsFunc(j.Net.Runs, func(r job.Run) bool { return r.State == "existing" }) {
					t.Skip("nothing stands: there is nothing to keep")
				}
				if keep {
					planDrop(t, j)
				}
				s := study.Of(j, catalog.Builtin())
				all, err := plan.Propose(context.Background(), s, plan.Wish{Lines: true, Sizes: true, First: true, Keep: keep, System: unit.Metric}, func(string, int, int) {})
				if err != nil {
					t.Fatal(err)
				}
				if keep {
					keeps(t, s.Index(), all[0].After.Index())
				}
				checks := check.All()
				if e.Name == "ring-main" {
					checks = slices.DeleteFunc(checks, func(c check.Check) bool { return slices.Contains(slowChecks, c.Code) })
				}
				found, err := check.RunThese(context.Background(), all[0].After, unit.Metric, checks)
				if err != nil {
					t.Fatal(err)
				}
				var had []job.Finding // what stood had them
				if keep {
					if had, err = check.RunThese(context.Background(), s, unit.Metric, checks); err != nil {
						t.Fatal(err)
					}
				}
				for i := range found {
					f := &found[i]
					if slices.ContainsFunc(had, func(x job.Finding) bool {
						return x.Code == f.Code && !slices.ContainsFunc(f.Where, func(id job.ID) bool { return !slices.Contains(x.Where, id) })
					}) {
						continue
					}
					if f.Severity == job.Note || notThePlans[f.Code] != "" || stood(s.Index(), all[0].After.Index(), f) {
						continue
					}
					t.Errorf("%s %s: %s %v", f.Severity, f.Code, f.Title, f.Where)
				}
			})
		}
	}
}

// planDrop makes the line to the first outlet that hangs on a branch one that is planned,
// with its tee, so that there is something to lay beside what stands.
func planDrop(t *testing.T, j *job.Job) {
	t.Helper()
	idx := job.NewIndex(j)
	for i := range j.Outlets {
		at, via := j.Outlets[i].Point, job.ID("")
		var runs, points []job.ID
		for len(idx.Ends(at)) <= 2 {
			ends := slices.DeleteFunc(slices.Clone(idx.Ends(at)), func(e job.RunEnd) bool { return e.Run.ID == via })
			if len(ends) != 1 {
				break
			}
			points, runs, via = append(points, at), append(runs, ends[0].Run.ID), ends[0].Run.ID
			if at = ends[0].Run.From.Point; at == points[len(points)-1] {
				at = ends[0].Run.To.Point
			}
		}
		if len(idx.Ends(at)) < 3 {
			continue
		}
		points = append(points, at)
		for _, id := range runs {
			idx.Run(id).State = "planned"
		}
		for _, id := range points {
			idx.Point(id).State = "planned"
		}
		return
	}
	t.Fatal("no outlet hangs on a branch")
}

// keeps holds that what stands is left as it is, to a tee cut into it, and that a line was
// laid beside it.
func keeps(t *testing.T, before, after *job.Index) {
	t.Helper()
	metres := func(idx *job.Index, state string) map[string]float64 {
		out := map[string]float64{}
		for i := range idx.Job().Net.Runs {
			if r := &idx.Job().Net.Runs[i]; r.State == state {
				long, _ := idx.LengthOf(r)
				out[r.Stock+" "+r.Size+" "+r.Role] += float64(long)
			}
		}
		return out
	}
	was, is := metres(before, "existing"), metres(after, "existing")
	for what, long := range was {
		if math.Abs(is[what]-long) > 1e-3 {
			t.Errorf("%.3f m of %s stood, %.3f m do", long, what, is[what])
		}
	}
	if len(is) != len(was) {
		t.Errorf("%v stands, %v did", is, was)
	}
	for i := range before.Job().Net.Points {
		p := &before.Job().Net.Points[i]
		if p.State != "existing" {
			continue
		}
		now := after.Point(p.ID)
		if now == nil || now.State != p.State || !reflect.DeepEqual(now.Part, p.Part) {
			t.Errorf("%s stood as %+v, now %+v", p.ID, p, now)
			continue
		}
		a, _ := before.Where(p)
		if b, _ := after.Where(now); a.Distance(b) > 1e-6 {
			t.Errorf("%s stood at %v, now at %v", p.ID, a, b)
		}
	}
	for i := range before.Job().Net.Runs {
		r := &before.Job().Net.Runs[i]
		if r.State == "existing" && !standsIn(after, r, middle(before, r)) {
			t.Errorf("%s stood as %s %s, and is not there any more", r.ID, r.Stock, r.Size)
		}
	}
	laid := 0.0
	for _, long := range metres(after, "planned") {
		laid += long
	}
	for _, long := range metres(after, "") {
		laid += long
	}
	if laid <= 0 {
		t.Error("nothing was laid")
	}
}

// standsIn says whether a place lies on a line that stands and is made as one.
func standsIn(after *job.Index, like *job.Run, at geom.Point) bool {
	return slices.ContainsFunc(after.Job().Net.Runs, func(r job.Run) bool {
		hit, ok := geom.NearestOnPath(at, after.Centreline(&r))
		return ok && hit.Distance < 1e-3 && r.State == like.State && r.Stock == like.Stock && r.Size == like.Size && r.Role == like.Role
	})
}

// middle is the place half way along a run.
func middle(idx *job.Index, r *job.Run) geom.Point {
	path := idx.Centreline(r)
	at, _, _ := geom.OnPath(path, geom.Length(path)/2)
	return at
}

// stood says whether a finding is about lines alone that stood before as they do now.
func stood(before, after *job.Index, f *job.Finding) bool {
	lines := 0
	for _, id := range f.Where {
		now := after.Run(id)
		if now == nil {
			continue
		}
		lines++
		was := before.Run(id)
		if was == nil || !slices.Equal(before.Centreline(was), after.Centreline(now)) {
			return false
		}
	}
	return lines > 0
}
