package check

import (
	"slices"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// branched is a receiver with a valve, a main, and off its tee a branch or a
// drop to one outlet, by way of a valve or not.
func branched(role string, valve, drip bool) *job.Job {
	n := shoptest.Machine()
	n.Points = append(n.Points,
		job.Point{ID: "point.tank-valve", Part: job.Part{Kind: "ball-valve"}},
		job.Point{ID: "point.tee", Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.first", Part: job.Part{Kind: "union"}},
		job.Point{ID: "point.a", Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.b", Part: job.Part{Kind: "drop-elbow"}},
	)
	if valve {
		n.Points[slices.IndexFunc(n.Points, func(p job.Point) bool { return p.ID == "point.first" })].Part.Kind = "ball-valve"
	}
	shoptest.Join(&n, "line.1", "point.receiver", "point.tank-valve", [2]string{"out", "in"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.2", "point.tank-valve", "point.tee", [2]string{"out", "run-1"}, "3/4", 1, "main")
	shoptest.Join(&n, "line.3", "point.tee", "point.first", [2]string{"branch", "in"}, "1/2", 1, role)
	shoptest.Join(&n, "line.4", "point.first", "point.a", [2]string{"out", "run-1"}, "1/2", 1, role)
	shoptest.Join(&n, "line.5", "point.tee", "point.b", [2]string{"run-2", "in"}, "3/4", 1, "main")
	if drip {
		n.Points = append(n.Points, job.Point{ID: "point.drain", Part: job.Part{Kind: "drain-cock"}})
		shoptest.Join(&n, "line.drip", "point.a", "point.drain", [2]string{"run-2", "in"}, "1/2", 0.2, "drip")
	}
	own := []job.Part{{ID: "part.b-valve", Kind: "ball-valve"}}
	return &job.Job{Version: job.Version, Net: n, Outlets: []job.Outlet{
		{ID: "outlet.a", Name: "a", Point: "point.a", Port: "branch"},
		{ID: "outlet.b", Name: "b", Point: "point.b", Port: "out", Hang: own},
	}}
}

// TestValveOfOneOutlet: a branch or drop to one outlet needs one valve, be it in
// the line or first of all; a drip leg is no second outlet.
func TestValveOfOneOutlet(t *testing.T) {
	for _, row := range []struct {
		role        string
		valve, drip bool
		want        []string
	}{
		{"branch", true, false, nil},
		{"branch", true, true, nil},
		{"drop", true, true, nil},
		{"branch", false, true, []string{"caution outlet.a"}},
		{"drop", false, false, []string{"caution outlet.a"}},
	} {
		got := leads(findings(t, study.Of(branched(row.role, row.valve, row.drip), catalog.Builtin()), noIsolatingValve))
		if !slices.Equal(got, row.want) {
			t.Errorf("%s, valve %v, drip %v: %q, want %q", row.role, row.valve, row.drip, got, row.want)
		}
	}
	// The valve itself is where the drop leaves the main.
	atMain := branched("drop", true, false)
	for i := range atMain.Net.Runs {
		if r := &atMain.Net.Runs[i]; r.ID == "line.3" {
			r.Role = "main"
		}
	}
	if got := leads(findings(t, study.Of(atMain, catalog.Builtin()), noIsolatingValve)); len(got) > 0 {
		t.Errorf("with the valve first of all: %q", got)
	}
	// With its own valve at the outlet the branch needs none.
	j := branched("branch", false, true)
	j.Outlets[0].Hang = []job.Part{{ID: "part.a-valve", Kind: "ball-valve"}}
	if got := leads(findings(t, study.Of(j, catalog.Builtin()), noIsolatingValve)); len(got) > 0 {
		t.Errorf("with its own valve: %q", got)
	}
}

// TestColdBeforeTheDryer: a cold line before the dryer does not count against
// the dew point that it holds; one behind it does, and may freeze as well.
func TestColdBeforeTheDryer(t *testing.T) {
	for _, row := range []struct {
		zone map[job.ID]bool // lines that lie in the shed
		wet  []string
		ice  []string
	}{
		{map[job.ID]bool{"line.filter": true}, nil, []string{"caution line.filter"}},
		{map[job.ID]bool{"line.drop-c": true}, []string{"caution outlet.a"}, []string{"caution line.drop-c"}},
	} {
		j := parse(t, pairOf(t, "line-may-freeze").fails)
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			if r.Zone = ""; row.zone[r.ID] {
				r.Zone = "zone.shed"
			}
		}
		s := study.Of(j, catalog.Builtin())
		if got := leads(findings(t, s, wetLineWithoutDrip)); !slices.Equal(got, row.wet) {
			t.Errorf("%v: drips %q, want %q", row.zone, got, row.wet)
		}
		if got := leads(findings(t, s, lineMayFreeze)); !slices.Equal(got, row.ice) {
			t.Errorf("%v: ice %q, want %q", row.zone, got, row.ice)
		}
	}
}
