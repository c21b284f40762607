package server

import (
	"context"
	"sync"
	"time"

	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// state is one revision of the source: what was read, or why nothing was.
type state struct {
	stamp    Stamp
	shop     *screen.Shop // nil: no revision could be read so far
	problems []Problem
}

// watch keeps the state in step with the source and tells who listens.
type watch struct {
	source Source
	poll   time.Duration

	mu    sync.Mutex
	now   state
	mark  string        // stamp of the source that now stands on
	doubt string        // stamp at which the source could not be read, seen once
	news  chan struct{} // closed and replaced at every revision
	begun bool
}

func newWatch(s Source, poll time.Duration) *watch {
	if poll <= 0 {
		poll = 300 * time.Millisecond
	}
	return &watch{source: s, poll: poll, news: make(chan struct{})}
}

// state reads the source if nothing has been read yet: the program starts
// without waiting for it.
func (w *watch) state() state {
	w.mu.Lock()
	defer w.mu.Unlock()
	if !w.begun {
		w.begun = true
		w.look()
	}
	return w.now
}

// changed is closed at the next revision.
func (w *watch) changed() <-chan struct{} {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.news
}

// run asks for the source's stamp until ctx ends.
func (w *watch) run(ctx context.Context) {
	tick := time.NewTicker(w.poll)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			w.mu.Lock()
			if w.begun {
				w.look()
			}
			w.mu.Unlock()
		}
	}
}

// look reads the source if its stamp has changed. The lock is held: the next
// request waits for the file rather than showing what is out of date.
func (w *watch) look() {
	mark, err := w.source.Stamp()
	if err != nil {
		mark = "unreadable: " + err.Error()
	}
	if w.now.stamp.Revision > 0 && mark == w.mark {
		return
	}
	next := state{stamp: Stamp{Revision: w.now.stamp.Revision + 1}}
	next.shop, next.problems = w.read(err)
	// Half a file, read while someone writes it, is not worth a word: what cannot
	// be read must stand like that for one more look.
	if next.shop == nil && w.now.stamp.Revision > 0 && mark != w.doubt {
		w.doubt = mark
		return
	}
	w.mark, w.doubt = mark, ""
	if next.shop == nil && w.now.shop != nil {
		next.shop, next.stamp.Old = w.now.shop, true
	}
	w.now = next
	close(w.news)
	w.news = make(chan struct{})
}

// read gives the shop, or everything that keeps it from being read.
func (w *watch) read(stampErr error) (*screen.Shop, []Problem) {
	if stampErr != nil {
		return nil, []Problem{{Want: stampErr.Error()}}
	}
	data, err := w.source.Bytes()
	if err != nil {
		return nil, []Problem{{Want: err.Error()}}
	}
	j, faults := job.Parse(data)
	if j == nil {
		return nil, problems(faults)
	}
	shop, faults := screen.Open(j, catalog.Builtin(), check.Run)
	if shop == nil {
		return nil, problems(faults)
	}
	return shop, []Problem{}
}

func problems(faults []job.Finding) []Problem {
	out := make([]Problem, 0, len(faults))
	for _, f := range faults {
		p := Problem{Path: f.Path, Read: f.Read, Want: f.Want, Nearest: f.Nearest}
		if p.Want == "" {
			p.Want = f.Title
		}
		out = append(out, p)
	}
	return out
}
