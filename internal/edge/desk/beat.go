package desk

import (
	"context"
	"time"
)

// The background's rhythm: what other processes did is looked for at every beat,
// what could not be saved is tried again after some, and a job at which nobody has
// worked for a while is kept as a snapshot.
const (
	beatEvery  = 300 * time.Millisecond
	retryBeats = 10
	idleBeats  = 16
)

// run beats until the desk is closed.
func (d *Desk) run(ticker *time.Ticker) {
	defer close(d.stopped)
	defer ticker.Stop()
	for n := 0; ; n++ {
		select {
		case <-d.stop:
			return
		case <-d.kick:
			d.beat(true)
		case <-ticker.C:
			d.beat(n%retryBeats == 0)
		}
	}
}

// beat looks after all jobs once; retry says whether to try what could not be
// saved again.
func (d *Desk) beat(retry bool) {
	works := d.open()
	if now, err := d.keep.Changed(context.Background()); err == nil && now != d.last {
		d.last = now
		for _, w := range works {
			w.lookOut()
		}
	}
	for _, w := range works {
		if retry {
			// The failure is shown with the job, and is the same for all of them.
			if err := w.flush(); err != nil {
				return
			}
		}
		w.mu.Lock()
		w.idle++
		v := w.seen.Load()
		due := w.idle >= idleBeats || v.revision-w.save.kept >= keepEvery
		w.mu.Unlock()
		if due {
			// A snapshot only makes opening quick; the next beat tries again.
			_ = w.snapshot()
		}
	}
}

// lookOut brings in what another process has saved.
func (w *Work) lookOut() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.closed || w.save.waits() { // what waits finds out when it is saved
		return
	}
	// A store that cannot be read now is read at the next change.
	_, _ = w.pull(context.Background())
}
