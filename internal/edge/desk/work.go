package desk

import (
	"context"
	"errors"
	"strings"
	"sync"
	"sync/atomic"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// ErrClosed is the end of a job that was put away, with the desk or into the bin.
var ErrClosed = errors.New("the job is no longer open")

// Work is one job lying open. It is safe for concurrent use.
type Work struct {
	desk *Desk
	id   string

	// seen is the present revision, read without the lock.
	seen atomic.Pointer[view]

	flushing sync.Mutex // held by the one who saves what is waiting; taken before mu
	mu       sync.Mutex // held by the one who changes the job; guards what follows
	closed   bool
	log      history
	save     saving
	// lost says that the last steps in the log are not in the view, as they no
	// longer fit: it stands as after revision stands.
	lost     bool
	stands   int
	standing string // trouble that does not pass
	floor    int    // see Now.Floor
	fork     int    // the last revision from before the floor that is as it was
	idle     int    // beats since the last change
}

// Now is a job as it stands.
type Now struct {
	Revision int
	Study    *study.Study // of the job, or of the alternative asked for
	Undo     string       // what would be undone, "" for nothing
	Redo     string
	Saved    bool   // all of it is in the store
	Trouble  string // what is the matter with saving, for people; "" for nothing
	// Left is what of the alternative no longer fits the job and is left out.
	Left []job.Finding
	// Floor is the first revision from which on numbers mean what they say: where
	// unsaved edits had to go on top of those of another process, revisions below
	// were counted anew, and who has seen one of them is to fetch everything.
	Floor int
}

// ID is the name of the job in the store.
func (w *Work) ID() string { return w.id }

// Now is the job (plan "") or one of its alternatives. It waits for nobody. The
// error is a *job.Refusal where there is no such alternative.
func (w *Work) Now(plan job.ID) (Now, error) {
	return w.seen.Load().now(plan)
}

// Changed is closed at the next revision, whoever made it, and when what Now tells
// of saving changes. Ask for it before Now, so that nothing comes between.
func (w *Work) Changed() <-chan struct{} { return w.seen.Load().next }

// History gives the steps before a revision, the newest first, most of them at
// most, without documents; before 0 begins at the newest, most 0 gives all. Where
// the store cannot be read, it gives those at hand.
func (w *Work) History(ctx context.Context, before, most int) ([]store.Step, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	want := 0
	if most > 0 {
		if next := w.seen.Load().revision + 1; before <= 0 || before > next {
			before = next
		}
		want = max(before-most-1, 0)
	}
	fault := w.reach(ctx, want)
	var out []store.Step
	for i := len(w.log.list) - 1; i >= 0; i-- {
		e := w.log.list[i]
		if before > 0 && e.Revision >= before {
			continue
		}
		if most > 0 && len(out) == most {
			break
		}
		out = append(out, e.Step)
	}
	if len(out) == 0 && fault != nil {
		return nil, fault
	}
	return out, nil
}

// show puts a view of the job in the place of the present one.
func (w *Work) show(revision int, s *study.Study, v *variants) {
	undo, redo := w.log.tops()
	old := w.seen.Swap(&view{
		revision: revision, floor: w.floor, study: s, variants: v, undo: undo, redo: redo,
		saved: w.saved(), trouble: w.trouble(), next: make(chan struct{}),
	})
	if old != nil {
		close(old.next)
	}
}

// refresh tells of saving anew if that has changed.
func (w *Work) refresh() {
	if v := w.seen.Load(); v.saved != w.saved() || v.trouble != w.trouble() {
		w.show(v.revision, v.study, v.variants)
	}
}

// saved says whether all is in a store that lasts.
func (w *Work) saved() bool { return !w.save.waits() && w.desk.forever == "" }

// trouble is all that is the matter.
func (w *Work) trouble() string {
	var all []string
	for _, s := range []string{w.desk.forever, w.standing, w.save.trouble} {
		if s != "" {
			all = append(all, s)
		}
	}
	return strings.Join(all, " ")
}
