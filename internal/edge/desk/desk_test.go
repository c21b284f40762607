package desk

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// An edit is in the store when Do returns.
func TestDurable(t *testing.T) {
	k := newMemory()
	w := opened(t, deskOn(t, k), bench())
	done := does(t, w, "Mika", title("Rope Walk"))
	saved, err := k.Load(t.Context(), w.ID())
	if err != nil || len(saved.Steps) != 1 || !done.Saved || done.Revision != 1 || done.Words != `set title of the job to "Rope Walk"` {
		t.Fatalf("%+v, %v, %v", done, saved.Steps, err)
	}
	other := work(t, deskOn(t, k), w.ID()) // as after a kill: nothing was put away
	if text(t, other, "") != text(t, w, "") {
		t.Error("opened again the job is another")
	}
	if n := now(t, other, ""); n.Undo != done.Words || n.Revision != 1 {
		t.Errorf("opened again: %+v", n)
	}
}

// A snapshot is kept after many steps, when nobody works for a while, and at the end.
func TestSnapshots(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	drawn := 0
	d.thumb = func(*study.Study) []byte { drawn++; return []byte("picture") }
	w := opened(t, d, bench())
	at := func() int {
		saved, err := k.Load(t.Context(), w.ID())
		if err != nil {
			t.Fatal(err)
		}
		return saved.At
	}
	for n := range keepEvery {
		does(t, w, "Mika", tool(n))
	}
	d.beat(false)
	if at() != keepEvery {
		t.Errorf("after %d steps a snapshot of %d", keepEvery, at())
	}
	does(t, w, "Mika", title("Rope Walk"))
	d.beat(false)
	if at() != keepEvery {
		t.Error("a snapshot at once")
	}
	for range idleBeats {
		d.beat(false)
	}
	if at() != keepEvery+1 {
		t.Error("no snapshot after a while")
	}
	does(t, w, "Mika", tool(1000))
	if err := d.Close(); err != nil || at() != keepEvery+2 {
		t.Errorf("at the end %d, %v", at(), err)
	}
	list, err := k.Jobs(t.Context())
	picture, _ := k.Thumb(t.Context(), w.ID())
	if err != nil || list[0].Title != "Rope Walk" || string(picture) != "picture" || drawn != 3 {
		t.Errorf("%+v, %q, drawn %d times, %v", list, picture, drawn, err)
	}
	if _, err := w.Do(t.Context(), asks(w, "Mika", tool(1))); !errors.Is(err, ErrClosed) {
		t.Errorf("after the end: %v", err)
	}
	if _, err := d.Work(t.Context(), w.ID()); !errors.Is(err, ErrClosed) {
		t.Errorf("after the end: %v", err)
	}
}

func TestNames(t *testing.T) {
	for title, want := range map[string]string{
		"Skerry Row Boatworks": "skerry-row-boatworks", "  Mika's shop!": "mikas-shop", "Tischlerei Käß": "tischlerei-kaess",
		"作業場": "job", "": "job", "Unit 7 / bay 2": "unit-7-bay-2", strings.Repeat("long ", 40): strings.TrimSuffix(strings.Repeat("long-", 12), "-"),
	} {
		if got := nameFrom(title); got != want {
			t.Errorf("%q gives %q, want %q", title, got, want)
		}
	}
	k := newMemory()
	d := deskOn(t, k)
	var ids []string
	for range 2 {
		ids = append(ids, opened(t, d, bench()).ID())
	}
	if err := d.Remove(t.Context(), ids[0]); err != nil {
		t.Fatal(err)
	}
	ids = append(ids, opened(t, deskOn(t, k), bench()).ID())
	copied, err := d.Copy(t.Context(), ids[1], "")
	if ids = append(ids, copied); err != nil || strings.Join(ids, " ") != "alder-lane-joinery alder-lane-joinery-2 alder-lane-joinery-3 alder-lane-joinery-4" {
		t.Errorf("%v, %v", ids, err)
	}
	if text(t, work(t, d, copied), "") != text(t, work(t, d, ids[1]), "") {
		t.Error("the copy is another job")
	}
}

func TestBin(t *testing.T) {
	d := deskOn(t, newMemory())
	w := opened(t, d, bench())
	does(t, w, "Mika", title("Rope Walk"))
	next := w.Changed()
	if err := d.Remove(t.Context(), w.ID()); err != nil {
		t.Fatal(err)
	}
	<-next
	list, err := d.Jobs(t.Context())
	if err != nil || len(list) != 1 || !list[0].Removed {
		t.Errorf("%+v, %v", list, err)
	}
	if err := d.Restore(t.Context(), w.ID()); err != nil {
		t.Fatal(err)
	}
	if again := work(t, d, w.ID()); again == w || text(t, again, "") != text(t, w, "") {
		t.Error("restored it is another job")
	}
	if _, err := d.Work(t.Context(), "no-such-job"); !errors.Is(err, store.ErrNotThere) || len(d.slots) != 1 {
		t.Errorf("%v, %d slots", err, len(d.slots))
	}
}

// Without a store all works, in memory, and it is said.
func TestInMemory(t *testing.T) {
	d := New(Options{Shelf: deskOn(t, newMemory()).shelf})
	defer d.Close()
	w := opened(t, d, bench())
	done := does(t, w, "Mika", title("Rope Walk"))
	if done.Saved || !strings.Contains(done.Trouble, "in memory only") {
		t.Errorf("%+v", done)
	}
	if err := d.Backup(t.Context(), "x"); err == nil {
		t.Error("a backup of nothing")
	}
	if err := d.PutPicture(t.Context(), w.ID(), "plan.png", "image/png", []byte("p")); err != nil {
		t.Fatal(err)
	}
	copied, err := d.Copy(t.Context(), w.ID(), "Second")
	if err != nil {
		t.Fatal(err)
	}
	if kind, data, err := d.Picture(t.Context(), copied, "plan.png"); err != nil || kind != "image/png" || string(data) != "p" {
		t.Errorf("%s %s %v", kind, data, err)
	}
}

// A job of which a step no longer fits opens at the one before; nothing is deleted,
// and work goes on from there.
func TestStepThatNoLongerFits(t *testing.T) {
	k := newMemory()
	w := opened(t, deskOn(t, k), bench())
	does(t, w, "Mika", tool(1))
	want := text(t, w, "")
	for n := 2; n < 5; n++ {
		does(t, w, "Mika", tool(n))
	}
	k.jobs[w.ID()].steps[1].Edit = []byte(`{"edit":"set","key":"colour","value":1}`)
	d := deskOn(t, k)
	w = work(t, d, w.ID())
	n := now(t, w, "")
	if text(t, w, "") != want || n.Revision != 4 || !strings.Contains(n.Trouble, "3 steps from revision 2 on (\"added tool") || n.Undo != `added tool "tool 1"` {
		t.Fatalf("%+v", n)
	}
	if err := w.snapshot(); err != nil || len(k.jobs[w.ID()].snapshots) != 1 {
		t.Error("a snapshot hides the steps")
	}
	does(t, w, "Mika", tool(9))
	after := text(t, w, "")
	w = work(t, deskOn(t, k), w.ID())
	if n := now(t, w, ""); text(t, w, "") != after || n.Trouble != "" || n.Revision != 6 || len(words(t, w)) != 6 {
		t.Errorf("opened again: %+v, %v", n, words(t, w))
	}
	for range 2 {
		if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := w.Undo(t.Context(), "", "Mika", ""); !errors.Is(err, ErrNothingToUndo) || text(t, w, "") != written(t, bench()) {
		t.Errorf("undone to the start: %v", err)
	}
}

// A snapshot that cannot be read is passed over.
func TestSnapshotThatCannotBeRead(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	does(t, w, "Mika", tool(1))
	if err := w.snapshot(); err != nil {
		t.Fatal(err)
	}
	does(t, w, "Mika", tool(2))
	k.jobs[w.ID()].snapshots[1].doc = []byte(`{"dropleg": 1, "colour": 3}`)
	again := work(t, deskOn(t, k), w.ID())
	if n := now(t, again, ""); text(t, again, "") != text(t, w, "") || !strings.Contains(n.Trouble, "worked out anew") {
		t.Errorf("%+v", n)
	}
	k.jobs[w.ID()].snapshots[0].doc = []byte(`{"dropleg": 1, "colour": 3}`)
	var r *job.Refusal
	if _, err := deskOn(t, k).Work(t.Context(), w.ID()); !errors.As(err, &r) || r.Findings[0].Path != "colour" {
		t.Errorf("%v", err)
	}
}

// The history comes in pages, newest first, however it was opened.
func TestHistory(t *testing.T) {
	k := newMemory()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	for n := range 9 {
		does(t, w, "Mika", tool(n))
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	for _, w := range []*Work{w, work(t, deskOn(t, k), w.ID())} {
		steps, err := w.History(t.Context(), 7, 3)
		var revisions []int
		for _, s := range steps {
			revisions = append(revisions, s.Revision)
		}
		if err != nil || !slices.Equal(revisions, []int{6, 5, 4}) || steps[0].By != "Mika" || len(words(t, w)) != 9 {
			t.Errorf("%v, %v", revisions, err)
		}
	}
}
