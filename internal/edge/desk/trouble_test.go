package desk

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// A store that fails: work goes on in memory, is told so, can be exported and
// undone, and is saved when the store works again.
func TestStoreFails(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	does(t, w, "Mika", tool(1))
	k.breakWith(full())
	for n := 2; n < 5; n++ {
		if done := does(t, w, "Mika", tool(n)); done.Saved || !strings.Contains(done.Trouble, "no room left") || done.Revision != n {
			t.Fatalf("%+v", done)
		}
	}
	if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil {
		t.Fatal(err)
	}
	if _, err := w.GoTo(t.Context(), 2, "Mika", ""); err != nil {
		t.Fatal(err)
	}
	want := text(t, w, "")
	if !strings.Contains(want, "tool.n-2") || strings.Contains(want, "tool.n-3") {
		t.Errorf("the export lacks what was done:\n%s", want)
	}
	next := w.Changed()
	d.beat(true)
	if n := now(t, w, ""); n.Saved || len(k.jobs[w.ID()].steps) != 1 {
		t.Errorf("%+v", n)
	}
	k.breakWith(nil)
	d.beat(false)
	if n := now(t, w, ""); n.Saved {
		t.Error("saved at a beat that does not try")
	}
	d.beat(true)
	<-next
	if n := now(t, w, ""); !n.Saved || n.Trouble != "" || n.Revision != 6 {
		t.Errorf("%+v", n)
	}
	if again := work(t, deskOn(t, k), w.ID()); text(t, again, "") != want || len(words(t, again)) != 6 {
		t.Errorf("opened again: %v", words(t, again))
	}
}

// A job that is created while the store fails is there, and is saved later.
func TestCreateWhileStoreFails(t *testing.T) {
	k := newFlaky()
	k.breakWith(full())
	d := deskOn(t, k)
	w := opened(t, d, bench())
	done := does(t, w, "Mika", title("Rope Walk"))
	list, err := d.Jobs(t.Context())
	if done.Saved || err == nil || len(list) != 1 || list[0].Title != "Rope Walk" || list[0].ID != w.ID() {
		t.Fatalf("%+v, %v, %v", done, list, err)
	}
	if err := d.Remove(t.Context(), w.ID()); err == nil {
		t.Error("what is not saved goes into the bin")
	}
	if _, err := w.GoTo(t.Context(), 0, "Mika", ""); err != nil || text(t, w, "") != written(t, bench()) {
		t.Errorf("%v", err)
	}
	k.breakWith(nil)
	d.beat(true)
	if n := now(t, w, ""); !n.Saved || n.Trouble != "" {
		t.Errorf("%+v", n)
	}
	if again := work(t, deskOn(t, k), w.ID()); text(t, again, "") != text(t, w, "") || now(t, again, "").Revision != 2 {
		t.Errorf("opened again: %+v", now(t, again, ""))
	}
}

// Closing tells what could not be saved.
func TestCloseUnsaved(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	k.breakWith(full())
	does(t, w, "Mika", tool(1))
	if err := d.Close(); err == nil || !strings.Contains(err.Error(), "alder-lane-joinery") {
		t.Errorf("%v", err)
	}
}

// An answer that gets lost does not double a step.
func TestLostAcknowledgement(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	k.fault, k.deaf = full(), true
	if done := does(t, w, "Mika", tool(1)); done.Saved {
		t.Errorf("%+v", done)
	}
	does(t, w, "Mika", tool(2))
	k.breakWith(nil)
	d.beat(true)
	if n := now(t, w, ""); !n.Saved || n.Revision != 2 || n.Floor != 0 || len(k.jobs[w.ID()].steps) != 2 {
		t.Errorf("%+v, %d steps", n, len(k.jobs[w.ID()].steps))
	}
}

// A disk that does not answer does not stop the work.
func TestSlowStore(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	k.hold = make(chan struct{})
	done := does(t, w, "Mika", tool(1)) // waits for patience
	if done.Saved || !strings.Contains(done.Trouble, "slow") {
		t.Errorf("%+v", done)
	}
	does(t, w, "Mika", tool(2))
	close(k.hold)
	d.beat(true)
	if n := now(t, w, ""); !n.Saved || n.Revision != 2 || len(k.jobs[w.ID()].steps) != 2 {
		t.Errorf("%+v, %d steps", n, len(k.jobs[w.ID()].steps))
	}
}

// What waits while another process saves goes on top of it; what no longer fits is
// told and does nothing.
func TestOvertaken(t *testing.T) {
	k := newFlaky()
	here := deskOn(t, k)
	w := opened(t, here, bench())
	there := work(t, deskOn(t, k.memory), w.ID())
	does(t, w, "Mika", tool(1))
	k.breakWith(full())
	does(t, w, "Mika", title("Rope Walk"))
	does(t, w, "Mika", set("tool.blow", "name", `"gun"`))
	if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil {
		t.Fatal(err)
	}
	does(t, w, "Mika", set("hose.c", "length_m", "3"))
	does(t, there, "Ida", &job.Remove{ID: "hose.c"})
	does(t, there, "Ida", tool(2))
	k.breakWith(nil)
	here.beat(true)
	n := now(t, w, "")
	if !n.Saved || n.Revision != 7 || n.Floor != 7 || !strings.Contains(n.Trouble, "1 change could not be kept") || n.Undo != `set title of the job to "Rope Walk"` {
		t.Errorf("%+v\n%v", n, words(t, w))
	}
	if got := words(t, w); !strings.HasPrefix(got[0], "left out") || len(got) != 7 {
		t.Errorf("%q", got)
	}
	does(t, there, "Ida", tool(3))
	here.beat(true)
	want := text(t, w, "")
	if text(t, there, "") != want || text(t, work(t, deskOn(t, k), w.ID()), "") != want || !strings.Contains(want, "Rope Walk") || !strings.Contains(want, "tool.n-2") {
		t.Errorf("the two differ, or something is lost:\n%s", want)
	}
	// A page that saw one of the revisions counted anew is taken back to what was
	// the same for all.
	ask := asks(w, "Mika", set("", "note", `"n"`))
	ask.Base = 5
	if others, err := w.others(t.Context(), ask); err != nil || len(others) != 3 {
		t.Errorf("%d, %v", len(others), err)
	}
}

// A file of jobs that was replaced by an older one.
func TestStoreWithFewerSteps(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	does(t, w, "Mika", tool(1))
	k.jobs[w.ID()].steps, k.jobs[w.ID()].head.Revision = nil, 0
	if done := does(t, w, "Mika", tool(2)); done.Saved || !strings.Contains(done.Trouble, "replaced by an older one") {
		t.Errorf("%+v", done)
	}
}

// The desk on a real store, with its background running: two of them on one file
// see each other's steps.
func TestRealStore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.db")
	var desks [2]*Desk
	for i := range desks {
		s, err := store.Open(context.Background(), path)
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		desks[i] = New(Options{Store: s, Shelf: catalog.Builtin()})
		defer desks[i].Close()
	}
	w := opened(t, desks[0], bench())
	there := work(t, desks[1], w.ID())
	for n := range 5 {
		next := there.Changed()
		does(t, w, "Mika", tool(n))
		<-next
		next = w.Changed()
		does(t, there, "Ida", tool(n+100))
		<-next
	}
	if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil {
		t.Fatal(err)
	}
	done := does(t, there, "Ida", title("Rope Walk")) // behind, and made again
	if done.Revision != 12 || !done.Saved {
		t.Errorf("%+v", done)
	}
	want := text(t, there, "")
	for _, d := range desks {
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	}
	s, err := store.Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d := New(Options{Store: s, Shelf: catalog.Builtin()})
	defer d.Close()
	again := work(t, d, w.ID())
	if text(t, again, "") != want || len(words(t, again)) != 12 {
		t.Errorf("opened again: %v", words(t, again))
	}
}
