package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"dropleg/internal/shop/job"
)

// Undone to the start across restarts, the document is the first one, records
// apart; done again, the last one.
func TestUndoAcrossRestarts(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	first := text(t, w, "")
	edits := []job.Edit{
		title("Rope Walk"), tool(1), record(1), &job.Remove{ID: "hose.c"},
		job.WithinOf("plan.b", set("line.drop-c", "size", `"3/4"`)), set("plan.b", "name", `"w"`),
		job.AllOf("tool and record", tool(2), record(2)), &job.Remove{ID: "plan.b"},
	}
	for i, e := range edits {
		does(t, w, fmt.Sprintf("hand %d", i%2), e)
	}
	replaced := *now(t, w, "").Study.Job()
	replaced.Title, replaced.Records = "Another", nil
	if _, err := w.Replace(t.Context(), &replaced, "read from a file", "Mika"); err != nil {
		t.Fatal(err)
	}
	last := text(t, w, "")
	reopen := func() {
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
		d = deskOn(t, k)
		w = work(t, d, w.ID())
	}
	reopen()
	undone := 0
	for ; ; undone++ {
		if _, err := w.Undo(t.Context(), "", "Mika", ""); errors.Is(err, ErrNothingToUndo) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		if undone%3 == 1 {
			reopen()
		}
	}
	if undone != len(edits) { // a record is none, the replacement is one
		t.Errorf("%d undone: %q", undone, words(t, w))
	}
	got := *now(t, w, "").Study.Job()
	if len(got.Records) != 2 {
		t.Errorf("%d records", len(got.Records))
	}
	got.Records = nil
	if written(t, &got) != first {
		t.Errorf("undone it is\n%s\nit was\n%s", written(t, &got), first)
	}
	reopen()
	for n := range undone {
		done, err := w.Redo(t.Context(), "", "Mika", "")
		if err != nil {
			t.Fatal(err)
		}
		if n == 0 && (done.Words != `did again what hand 0 did: set title of the job to "Rope Walk"` || done.Redo != `added tool "tool 1"`) {
			t.Errorf("%+v", done)
		}
		if n%3 == 1 {
			reopen()
		}
	}
	if _, err := w.Redo(t.Context(), "", "Mika", ""); !errors.Is(err, ErrNothingToRedo) || text(t, w, "") != last {
		t.Errorf("%v; done again it is\n%s\nit was\n%s", err, text(t, w, ""), last)
	}
}

// More steps than are fetched at once: what an undo names may lie before them.
func TestUndoFarBack(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	first := text(t, w, "")
	const many = page + 60
	for n := range many {
		does(t, w, "Mika", set("", "work.crew", fmt.Sprint(n%7+1)))
	}
	last := text(t, w, "")
	times := func(n int, do func(ctx context.Context, plan job.ID, by, key string) (Done, error)) {
		t.Helper()
		for range n {
			if _, err := do(t.Context(), "", "Mika", ""); err != nil {
				t.Fatal(err)
			}
		}
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
		d = deskOn(t, k)
		w = work(t, d, w.ID())
	}
	times(many-10, w.Undo)
	times(10, w.Undo)
	if text(t, w, "") != first || now(t, w, "").Undo != "" {
		t.Error("undone to the start it is another job")
	}
	times(30, w.Redo)
	times(many-30, w.Redo)
	if n := now(t, w, ""); n.Redo != "" || text(t, w, "") != last {
		t.Errorf("done again it is another job: %q", n.Redo)
	}
	if _, err := w.GoTo(t.Context(), 3, "Mika", ""); err != nil || now(t, w, "").Study.Job().Work.Crew != 3 {
		t.Errorf("back over many: %v", err)
	}
	times(1, w.Undo)
	if text(t, w, "") != last {
		t.Error("going back undone it is another job")
	}
}

// A new edit ends redo; a record does not.
func TestEditEndsRedo(t *testing.T) {
	w := opened(t, deskOn(t, newMemory()), bench())
	does(t, w, "Mika", tool(1))
	if done, err := w.Undo(t.Context(), "", "Ida", ""); err != nil || done.Words != `undid what Mika did: added tool "tool 1"` || done.Undo != "" {
		t.Fatalf("%+v, %v", done, err)
	}
	if done := does(t, w, "Mika", record(1)); done.Redo != `added tool "tool 1"` || done.Undo != "" {
		t.Errorf("%+v", done)
	}
	if done := does(t, w, "Mika", tool(2)); done.Redo != "" || done.Undo != `added tool "tool 2"` {
		t.Errorf("%+v", done)
	}
}

// An undo that does not fit is refused in words, and nothing is lost by it.
func TestUndoRefused(t *testing.T) {
	k := newMemory()
	w := opened(t, deskOn(t, k), bench())
	does(t, w, "Mika", tool(1))
	k.jobs[w.ID()].steps[0].Inverse = []byte(`{"edit":"remove","id":"tool.gone"}`)
	w = work(t, deskOn(t, k), w.ID())
	var r *job.Refusal
	if _, err := w.Undo(t.Context(), "", "Mika", ""); !errors.As(err, &r) || now(t, w, "").Revision != 1 {
		t.Errorf("%v", err)
	}
	k.jobs[w.ID()].steps[0].Inverse = []byte(`no edit`)
	w = work(t, deskOn(t, k), w.ID())
	if _, err := w.Undo(t.Context(), "", "Mika", ""); !errors.As(err, &r) {
		t.Errorf("%v", err)
	}
}

// Going back and forth: each is one step, durable, and can be undone.
func TestGoTo(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	texts := []string{text(t, w, "")}
	note := func() { texts = append(texts, text(t, w, "")) }
	for n := range 5 {
		does(t, w, "Mika", tool(n))
		note()
	}
	other := *bench()
	other.Title = "Another"
	if _, err := w.Replace(t.Context(), &other, "read from a file", "Mika"); err != nil {
		t.Fatal(err)
	}
	note()
	does(t, w, "Mika", job.WithinOf("plan.b", tool(9)))
	note()
	if err := w.snapshot(); err != nil {
		t.Fatal(err)
	}
	for _, to := range []int{6, 2, 5, 0, 7, 8, 3, 10} {
		done, err := w.GoTo(t.Context(), to, "Ida", "")
		if err != nil || done.Study.Job() == nil || text(t, w, "") != texts[to] {
			t.Fatalf("to %d: %v\n%s\nit was\n%s", to, err, text(t, w, ""), texts[to])
		}
		note()
		if again := work(t, deskOn(t, k), w.ID()); text(t, again, "") != texts[to] {
			t.Fatalf("to %d and opened again:\n%s", to, text(t, again, ""))
		}
	}
	if n := now(t, w, ""); n.Undo != "went back to: went back to: added tool \"tool 4\"" {
		t.Errorf("%q", n.Undo)
	}
	for i := len(texts) - 2; i >= 0; i-- {
		if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil || text(t, w, "") != texts[i] {
			t.Fatalf("undone to %d: %v", i, err)
		}
	}
	for _, to := range []int{-1, now(t, w, "").Revision} {
		if _, err := w.GoTo(t.Context(), to, "Mika", ""); !errors.Is(err, ErrNoRevision) {
			t.Errorf("to %d: %v", to, err)
		}
	}
}

// Live work in an alternative: its study goes on from the one before, and is the
// one that opening it anew gives.
func TestAlternative(t *testing.T) {
	k := newMemory()
	w := opened(t, deskOn(t, k), bench())
	before := now(t, w, "plan.b")
	in := func(e job.Edit) Done {
		t.Helper()
		ask := asks(w, "Mika", e)
		ask.Plan = "plan.b"
		done, err := w.Do(t.Context(), ask)
		if err != nil {
			t.Fatal(err)
		}
		return done
	}
	same := func() {
		t.Helper()
		j, left := job.Variant(now(t, w, "").Study.Job(), "plan.b")
		if n := now(t, w, "plan.b"); written(t, j) != written(t, n.Study.Job()) || len(left) != len(n.Left) {
			t.Errorf("the alternative is\n%s\nand should be\n%s", written(t, n.Study.Job()), written(t, j))
		}
	}
	done := in(set("line.drop-c", "size", `"3/4"`))
	if done.Words != `in alternative "wider": set size of line.drop-c to "3/4"` || done.Study == before.Study || done.Study != now(t, w, "plan.b").Study {
		t.Errorf("%+v", done)
	}
	if size := now(t, w, "").Study.Index().Run("line.drop-c").Size; size != "1/2" {
		t.Errorf("the job itself has %s", size)
	}
	same()
	in(set("hose.c", "length_m", "3"))
	does(t, w, "Ida", &job.Remove{ID: "hose.c"}) // in the job itself
	if n := now(t, w, "plan.b"); len(n.Left) != 1 {
		t.Errorf("left out: %v", n.Left)
	}
	in(tool(1))
	same()
	for range 4 {
		if _, err := w.Undo(t.Context(), "plan.b", "Mika", ""); err != nil {
			t.Fatal(err)
		}
		same()
	}
	if text(t, w, "") != written(t, bench()) {
		t.Error("undone it is another")
	}
	for range 4 {
		if _, err := w.Redo(t.Context(), "plan.b", "Mika", ""); err != nil {
			t.Fatal(err)
		}
		same()
	}
	stood := text(t, w, "")
	done, err := w.Adopt(t.Context(), "plan.b", 0, "Mika", "")
	if err != nil || done.Words != `adopted alternative "wider"` {
		t.Fatalf("%+v, %v", done, err)
	}
	j := done.Study.Job()
	if len(j.Plans) != 0 || done.Study.Index().Run("line.drop-c").Size != "3/4" || done.Study.Index().Tool("tool.n-1") == nil {
		t.Errorf("adopted:\n%s", written(t, j))
	}
	var r *job.Refusal
	if _, err := w.Now("plan.b"); !errors.As(err, &r) || !strings.Contains(err.Error(), "plan.b") {
		t.Errorf("%v", err)
	}
	if _, err := w.Adopt(t.Context(), "plan.b", 99, "Mika", ""); err == nil {
		t.Error("adopted twice")
	}
	if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil || text(t, w, "") != stood {
		t.Errorf("adoption undone: %v", err)
	}
	same()
}
