package desk

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Edits on a stale base: merged where they touch other things or are by the same
// person, refused with whose doing it was where not.
func TestMerge(t *testing.T) {
	along := unit.Length(2)
	size := set("line.drop-c", "size", `"3/4"`)
	rows := []struct {
		name         string
		theirs, ours job.Edit
		by           string
		things       []job.ID // of a conflict; nil for none
		refused      bool     // it comes out by not fitting any more
	}{
		{"other things", size, title("x"), "Ida", nil, false},
		{"the same key", size, set("line.drop-c", "size", `"3/8"`), "Ida", []job.ID{"line.drop-c"}, false},
		{"the same by oneself", size, set("line.drop-c", "size", `"3/8"`), "Mika", nil, false},
		{"another key", size, set("line.drop-c", "slope", `0.01`), "Ida", nil, false},
		{"removed", &job.Remove{ID: "hose.c"}, set("hose.c", "length_m", `3`), "Ida", []job.ID{"hose.c"}, true},
		{
			"removed with its outlet", job.AllOf("", &job.Remove{ID: "set.friday"}, &job.Remove{ID: "outlet.c"}),
			set("hose.c", "length_m", `3`), "Ida",
			[]job.ID{"hose.c"},
			true,
		},
		{"a place in a list that moved", &job.Remove{ID: "part.c-valve"}, set("outlet.c", "hang[0].size", `"3/8"`), "Ida", []job.ID{"outlet.c"}, false},
		{"split", &job.Split{Run: "line.drop-c", Along: &along}, size, "Ida", []job.ID{"line.drop-c"}, false},
		{"in the alternative", size, job.WithinOf("plan.b", size), "Ida", nil, false},
		{"twice in the alternative", job.WithinOf("plan.b", size), job.WithinOf("plan.b", size), "Ida", []job.ID{"line.drop-c"}, false},
		{"side by side in the alternative", job.WithinOf("plan.b", size), job.WithinOf("plan.b", set("hose.c", "length_m", `3`)), "Ida", nil, false},
		{"its alternative removed", &job.Remove{ID: "plan.b"}, job.WithinOf("plan.b", size), "Ida", []job.ID{"plan.b"}, true},
		{
			"what a new thing names", job.AllOf("", &job.Remove{ID: "set.friday"}, set("outlet.c", "tools", `null`), &job.Remove{ID: "tool.wrench"}),
			set("outlet.a", "tools", `["tool.wrench"]`), "Ida",
			[]job.ID{"tool.wrench"},
			true,
		},
		{"the same new id", tool(1), tool(1), "Ida", []job.ID{"tool.n-1"}, true},
		{"never fitted", size, set("hose.x", "length_m", `3`), "Ida", nil, true},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			w := opened(t, deskOn(t, newMemory()), bench())
			ask := asks(w, row.by, row.ours)
			does(t, w, "Mika", row.theirs)
			done, err := w.Do(t.Context(), ask)
			var c *Conflict
			var r *job.Refusal
			switch {
			case row.things != nil:
				if !errors.As(err, &c) || !slices.Equal(c.Things, row.things) || c.By != "Mika" || c.Revision != 1 || (c.Refusal != nil) != row.refused {
					t.Errorf("%+v, %v", c, err)
				}
				if now(t, w, "").Revision != 1 || !strings.Contains(err.Error(), "Mika has changed the same meanwhile: ") {
					t.Errorf("%v", err)
				}
			case row.refused:
				if !errors.As(err, &r) || errors.As(err, &c) {
					t.Errorf("%v", err)
				}
			case err != nil || done.Revision != 2 || done.Merged != (row.by != "Mika"):
				t.Errorf("%+v, %v", done, err)
			}
		})
	}
}

// Make is asked anew for the present study, and its refusal is laid at the door of
// whoever caused it.
func TestMakeOnThePresent(t *testing.T) {
	w := opened(t, deskOn(t, newMemory()), bench())
	ask := Ask{By: "Ida", Make: func(s *study.Study) (job.Edit, []job.ID, error) {
		if s.Index().OutletOfHose("hose.c") == nil {
			f := job.Finding{Code: "leads-nowhere", Where: []job.ID{"hose.c"}}
			return nil, nil, &job.Refusal{Findings: []job.Finding{f}}
		}
		return title(s.Job().Title + "!"), []job.ID{"tool.made"}, nil
	}}
	does(t, w, "Mika", set("", "note", `"n"`))
	done, err := w.Do(t.Context(), ask)
	if err != nil || done.Study.Job().Title != bench().Title+"!" || !done.Merged || done.Made[0] != "tool.made" {
		t.Fatalf("%+v, %v", done, err)
	}
	does(t, w, "Mika", &job.Remove{ID: "hose.c"})
	ask.Base = 2
	var c *Conflict
	if _, err := w.Do(t.Context(), ask); !errors.As(err, &c) || c.Refusal == nil || c.Words != "removed hose.c" {
		t.Errorf("%v", err)
	}
	ask.Base = 99
	if _, err := w.Do(t.Context(), ask); !errors.Is(err, ErrAhead) {
		t.Errorf("%v", err)
	}
}

// Whoever waits for a change is told of it, and others may read meanwhile.
func TestChanged(t *testing.T) {
	w := opened(t, deskOn(t, newMemory()), bench())
	const people = 4
	seen := make(chan int, people)
	for range people {
		next := w.Changed()
		go func() {
			<-next
			n, _ := w.Now("plan.b")
			seen <- n.Revision
		}()
	}
	does(t, w, "Mika", title("x"))
	for range people {
		if r := <-seen; r != 1 {
			t.Errorf("revision %d", r)
		}
	}
}
