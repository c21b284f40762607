package screen

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// An alternative with a wider and a cut main stands beside the job, with what it
// changes, what comes of it, and what of it no longer fits.
func TestCompare(t *testing.T) {
	s := joinery(t)
	run := s.job.Net.Runs[len(s.job.Net.Runs)-1]
	along := unit.Length(0.5)
	widen := &job.Change{ID: run.ID, Key: "size", Value: json.RawMessage(`"1"`)}
	gone := &job.Change{ID: "line.nowhere", Key: "size", Value: json.RawMessage(`"1"`)}
	cut := &job.Split{Run: run.ID, Along: &along, Part: &job.Part{Kind: "union"}}
	j := *s.job
	j.Plans = []job.Plan{{ID: "plan.wide", Name: "wider", Edits: []job.EditForm{widen.Form(), gone.Form(), cut.Form()}}}
	if raw, err := j.Encode(); err != nil {
		t.Fatal(err)
	} else if read, _ := job.Parse(raw); read != nil {
		j = *read
	}
	base := On(study.Of(&j, catalog.Builtin()), nil)
	inside, left := job.Variant(&j, "plan.wide")
	other := On(study.Of(inside, catalog.Builtin()), nil)
	got, err := Compare(t.Context(), base, Ask{}, []Alternative{{"plan.wide", other, left}})
	whole(t, "comparison", got, err)
	if len(got.Columns) != 2 {
		t.Fatalf("%+v", got)
	}
	drawn, wide := got.Columns[0], got.Columns[1]
	if drawn.Plan != "" || len(drawn.Against) > 0 || wide.Plan != "plan.wide" || wide.Name != "wider" {
		t.Errorf("heads: %+v\n%+v", drawn, wide)
	}
	if len(wide.Steps) != 2 || len(wide.Left) != 1 || !strings.Contains(strings.Join(wide.Steps, ";"), "split") {
		t.Errorf("steps %q, left %q", wide.Steps, wide.Left)
	}
	// A union is one part more, and nothing else of number changes.
	if wide.Pieces != drawn.Pieces+1 || !slices.Contains(wide.Against, "1 part more") {
		t.Errorf("%d and %d parts; against %q", drawn.Pieces, wide.Pieces, wide.Against)
	}
	// The figures are those of the flow: the least margin over all sets, and who is short.
	a, err := base.study.Flow(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	least, short := a.Sets[a.Worst].CutIn.Tools[0].Margin, map[job.ID]bool{}
	for _, set := range a.Sets {
		for _, tool := range set.CutIn.Tools {
			least = min(least, tool.Margin)
			if tool.Margin < 0 {
				short[tool.Outlet] = true
			}
		}
	}
	if (least < 0) != (drawn.State == Short) || drawn.Short != len(short) || (drawn.State == Short) != strings.HasSuffix(drawn.Margin, " short") {
		t.Errorf("margin %v, %d short: %+v", least, len(short), drawn)
	}
}
