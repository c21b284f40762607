package cure

import (
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// Each pair cures: after its edits alone the tool has its pressure in all sets of the flows
// that it runs in, worked out afresh, and no other tool is newly short. With only one of its
// two edits the tool stays short, else it would be no pair.
func TestPairs(t *testing.T) {
	raw, _ := example.Read("boat-shop")
	j, bad := job.Parse(raw)
	if j == nil {
		t.Fatal(bad)
	}
	// More pressure wanted, so that no single change is enough any more.
	j, _, err := Set("tool.long-board", "least_kPa_g", 595).Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	s := study.Of(j, catalog.Builtin())
	all, err := Pairs(t.Context(), s, unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	pairs := all["tool.long-board"]
	if len(pairs) == 0 {
		t.Fatal("no pair for the tool that is short")
	}
	for _, c := range pairs {
		var edits []job.Edit
		for _, f := range c.Edits {
			e, found := job.ParseEdit(f)
			if found != nil {
				t.Fatal(found)
			}
			edits = append(edits, e)
		}
		after, _, err := job.AllOf("", edits...).Apply(j)
		if err != nil {
			t.Fatal(err)
		}
		f, err := study.Of(after, catalog.Builtin()).Flow(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range f.Tools {
			if w.Set >= 0 && w.Margin < -harmless {
				t.Errorf("%s: %s is short by %v", c.Words, w.Tool, -w.Margin)
			}
		}
	}
}
