package desk

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
)

// Options say what a desk works with.
type Options struct {
	Store *store.Store // nil: in memory, for as long as the program runs
	Shelf *catalog.Catalog
	Now   func() time.Time          // stamps the steps; nil is the system's clock
	Thumb func(*study.Study) []byte // the small picture for the list of jobs; nil for none
}

// Desk holds the jobs that lie open. It is safe for concurrent use.
type Desk struct {
	keep    keeper
	shelf   *catalog.Catalog
	clock   func() time.Time
	thumb   func(*study.Study) []byte
	forever string // trouble that there is from the beginning: no store

	mu     sync.Mutex
	slots  map[string]*slot
	closed bool

	last    int64         // what the store's Changed gave last; the beat's own
	kick    chan struct{} // something waits to be saved or kept
	stop    chan struct{}
	stopped chan struct{}
}

// slot is the place of one job, so that it is opened once.
type slot struct {
	mu   sync.Mutex
	work *Work
	gone bool // given up: another slot is in its place, or none
}

// New is a desk with nothing on it. It works in the background until Close.
func New(o Options) *Desk {
	d := newDesk(o)
	go d.run(time.NewTicker(beatEvery))
	return d
}

// newDesk is a desk without its background.
func newDesk(o Options) *Desk {
	d := &Desk{
		shelf: o.Shelf, clock: o.Now, thumb: o.Thumb, slots: map[string]*slot{},
		kick: make(chan struct{}, 1), stop: make(chan struct{}), stopped: make(chan struct{}),
	}
	if d.clock == nil {
		d.clock = time.Now
	}
	if o.Store != nil {
		d.keep = o.Store
	} else {
		d.keep = newMemory()
		d.forever = "This job is in memory only and is gone when the program ends: export it to keep it."
	}
	return d
}

// Close saves what waits, keeps a snapshot of each job and ends the background.
// The error tells the jobs of which something could not be saved.
func (d *Desk) Close() error {
	d.mu.Lock()
	if d.closed {
		d.mu.Unlock()
		return nil
	}
	d.closed = true
	d.mu.Unlock()
	close(d.stop)
	<-d.stopped
	var faults []error
	for _, w := range d.open() {
		if err := w.flush(); err != nil {
			faults = append(faults, fmt.Errorf("job %q has changes that are not saved: %w", w.id, err))
		}
		w.end()
	}
	return errors.Join(faults...)
}

// open lists the jobs that lie open, in order.
func (d *Desk) open() []*Work {
	d.mu.Lock()
	slots := make([]*slot, 0, len(d.slots))
	for _, s := range d.slots {
		slots = append(slots, s)
	}
	d.mu.Unlock()
	var out []*Work
	for _, s := range slots {
		s.mu.Lock()
		if s.work != nil {
			out = append(out, s.work)
		}
		s.mu.Unlock()
	}
	slices.SortFunc(out, func(a, b *Work) int { return cmp.Compare(a.id, b.id) })
	return out
}

// Work is the job of an id, opened on first asking. The error wraps
// store.ErrNotThere where there is none.
func (d *Desk) Work(ctx context.Context, id string) (*Work, error) {
	for {
		s, err := d.slot(id)
		if err != nil {
			return nil, err
		}
		if w, err := d.openIn(ctx, s, id); w != nil || err != nil {
			return w, err
		}
	}
}

// slot is the place of a job, which may be empty.
func (d *Desk) slot(id string) (*slot, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.closed {
		return nil, ErrClosed
	}
	if d.slots[id] == nil {
		d.slots[id] = &slot{}
	}
	return d.slots[id], nil
}

// openIn opens a job in its slot; nil where the slot was given up meanwhile.
func (d *Desk) openIn(ctx context.Context, s *slot, id string) (*Work, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.work != nil || s.gone {
		return s.work, nil
	}
	w := &Work{desk: d, id: id}
	if err := w.load(ctx); err != nil {
		d.release(id, s) // ids that are none do not pile up
		return nil, fmt.Errorf("opening job %q: %w", id, err)
	}
	s.work = w
	return w, nil
}

// claim takes the slot of an id that nobody has, locked; nil where it is taken.
func (d *Desk) claim(id string) *slot {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.slots[id] != nil {
		return nil
	}
	s := &slot{}
	s.mu.Lock()
	d.slots[id] = s
	return s
}

// release gives a slot up, which is locked.
func (d *Desk) release(id string, s *slot) {
	d.mu.Lock()
	defer d.mu.Unlock()
	s.work, s.gone = nil, true
	if d.slots[id] == s {
		delete(d.slots, id)
	}
}

// stamp is the time as it comes back from the store.
func (d *Desk) stamp() time.Time { return d.clock().UTC().Truncate(time.Microsecond) }

// wake has the background look at once at what waits.
func (d *Desk) wake() {
	select {
	case d.kick <- struct{}{}:
	default: // it was woken already
	}
}
