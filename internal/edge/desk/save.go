package desk

import (
	"bytes"
	"context"
	"errors"
	"time"

	"dropleg/internal/edge/store"
)

// saving is what of a job is in the store and what waits to be.
type saving struct {
	birth  *birth       // the job itself is not in the store yet
	queue  []store.Step // in order
	flight chan error   // gives the outcome of storing the first, which took too long
	// trouble is what kept the last from the store, "" while nothing waits.
	trouble string
	shore   *view // the job as in the store
	kept    int   // revision of the last snapshot
}

// birth is a job to be created.
type birth struct {
	head store.Entry
	doc  []byte
}

func (s *saving) waits() bool { return s.birth != nil || len(s.queue) > 0 }

// patience is how long an edit waits for the disk before work goes on without.
const patience = time.Second

// errSlow is a store that has not answered yet.
var errSlow = errors.New("the disk is slow, or another program holds the file of jobs: what you do is in memory and is saved as soon as that works")

// store saves a step, or queues it where the store fails. The only error is
// errBehind. w.mu is held.
func (w *Work) store(ctx context.Context, s store.Step) error {
	if !w.save.waits() {
		err := w.append(s)
		if err == nil {
			return nil
		}
		if errors.Is(err, store.ErrBehind) {
			var n int
			if n, err = w.pull(ctx); n > 0 {
				return errBehind
			} else if err == nil {
				err = errFewer
			}
		}
		w.save.trouble = troubleWords(err)
	}
	w.save.queue = append(w.save.queue, s)
	w.desk.wake()
	return nil
}

// errFewer is a store that was put in place of another.
var errFewer = errors.New("the file of jobs does not have the steps that were saved in it before: it may have been replaced by an older one. Export this job to keep it")

// append stores a step. It waits for a while; the outcome of one that takes longer
// comes by w.save.flight.
func (w *Work) append(s store.Step) error {
	ended := make(chan error, 1)
	// Whoever asked may go away: the step is stored or not, but never in doubt.
	go func() { ended <- w.desk.keep.Append(context.Background(), w.id, s) }()
	late := time.NewTimer(patience)
	defer late.Stop()
	select {
	case err := <-ended:
		return err
	case <-late.C:
		w.save.flight = ended
		return errSlow
	}
}

// flush stores what waits, in order. Meanwhile work goes on. The error is what
// keeps it from the store.
func (w *Work) flush() error {
	w.flushing.Lock()
	defer w.flushing.Unlock()
	for {
		w.mu.Lock()
		waits, flight, born := w.save.waits(), w.save.flight, w.save.birth
		var first store.Step
		if len(w.save.queue) > 0 {
			first = w.save.queue[0]
		}
		w.mu.Unlock()
		var err error
		switch {
		case !waits:
			return nil
		case born != nil:
			err = w.bear(born)
		case flight != nil:
			err = <-flight
		default:
			err = w.desk.keep.Append(context.Background(), w.id, first)
		}
		w.mu.Lock()
		w.save.flight = nil
		err = w.landed(err)
		w.refresh()
		w.mu.Unlock()
		if err != nil {
			return err
		}
	}
}

// bear creates the job in the store. That it is there already may be its own doing,
// of which the acknowledgement was lost.
func (w *Work) bear(b *birth) error {
	err := w.desk.keep.Create(context.Background(), b.head, b.doc)
	if !errors.Is(err, store.ErrTaken) {
		return err
	}
	there, fault := w.desk.keep.LoadAt(context.Background(), w.id, 0)
	if fault == nil && there.Created.Equal(b.head.Created) && bytes.Equal(there.Doc, b.doc) {
		return nil
	}
	return err
}

// landed takes note of how storing the first that waits came out.
func (w *Work) landed(err error) error {
	switch {
	case errors.Is(err, store.ErrBehind):
		err = w.overtaken()
	case err == nil && w.save.birth != nil:
		w.save.birth = nil
	case err == nil:
		w.save.queue = w.save.queue[1:]
	}
	if err != nil {
		w.save.trouble = troubleWords(err)
		return err
	}
	if !w.save.waits() {
		w.save.trouble, w.save.queue, w.save.shore = "", nil, w.seen.Load()
	}
	return nil
}

// overtaken finds out which steps stand in the store where the first that waits
// was to be: that very one, of which the acknowledgement was lost, or those of
// another process.
func (w *Work) overtaken() error {
	first := w.save.queue[0]
	theirs, err := w.desk.keep.Steps(context.Background(), w.id, first.Revision-1)
	switch {
	case err != nil:
		return err
	case len(theirs) == 0:
		return errFewer
	case sameStep(theirs[0], first):
		w.save.queue = w.save.queue[1:]
		return nil
	}
	return w.rebase(first.Revision, theirs)
}

// sameStep says whether a step is the one that was sent.
func sameStep(a, b store.Step) bool {
	return a.When.Equal(b.When) && a.By == b.By && a.Key == b.Key && a.Kind == b.Kind && a.Words == b.Words &&
		bytes.Equal(a.Edit, b.Edit) && bytes.Equal(a.Inverse, b.Inverse)
}

// troubleWords is a failure of the store in words for people.
func troubleWords(err error) string {
	var t *store.Trouble
	if errors.As(err, &t) {
		return "Not saved yet, kept in memory: " + t.Words
	}
	return "Not saved yet, kept in memory: " + err.Error() + "."
}

// keepEvery is how many steps lie between snapshots at most.
const keepEvery = 64

// snapshot keeps the job as it stands, so that opening it is quick, with its
// picture for the list.
func (w *Work) snapshot() error {
	w.mu.Lock()
	v := w.seen.Load()
	due := !w.save.waits() && !w.lost && v.revision > w.save.kept
	w.mu.Unlock()
	if !due {
		return nil
	}
	j := v.study.Job()
	doc, err := j.Encode()
	if err != nil {
		return err
	}
	var thumb []byte
	if w.desk.thumb != nil {
		thumb = w.desk.thumb(v.study)
	}
	if err := w.desk.keep.Keep(context.Background(), w.id, v.revision, j.Title, doc, thumb); err != nil {
		return err
	}
	w.mu.Lock()
	w.save.kept = max(w.save.kept, v.revision)
	w.mu.Unlock()
	return nil
}

// end puts the job away: nobody changes it any more, and those who wait for a
// change are told.
func (w *Work) end() {
	// A snapshot only makes opening quick: without it nothing is lost.
	_ = w.snapshot()
	w.mu.Lock()
	defer w.mu.Unlock()
	w.closed = true
	v := w.seen.Load()
	w.show(v.revision, v.study, v.variants)
}
