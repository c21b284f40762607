package desk

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// flaky is a store in memory that fails when told to.
type flaky struct {
	*memory
	mu    sync.Mutex
	fault error
	deaf  bool          // what is appended arrives, but the answer is the fault
	hold  chan struct{} // appending waits for it
}

func newFlaky() *flaky { return &flaky{memory: newMemory()} }

func (f *flaky) breakWith(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.fault, f.deaf = err, false
}

func (f *flaky) now() (deaf bool, hold chan struct{}, fault error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.deaf, f.hold, f.fault
}

func (f *flaky) Append(ctx context.Context, id string, s store.Step) error {
	deaf, hold, fault := f.now()
	if hold != nil {
		<-hold
	}
	if fault != nil && !deaf {
		return fault
	}
	return errors.Join(f.memory.Append(ctx, id, s), fault)
}

func (f *flaky) Create(ctx context.Context, e store.Entry, doc []byte) error {
	if _, _, fault := f.now(); fault != nil {
		return fault
	}
	return f.memory.Create(ctx, e, doc)
}

func (f *flaky) Jobs(ctx context.Context) ([]store.Entry, error) {
	if _, _, fault := f.now(); fault != nil {
		return nil, fault
	}
	return f.memory.Jobs(ctx)
}

// full is a disk without room.
func full() error {
	return &store.Trouble{Kind: store.Full, Words: "There is no room left on the disk."}
}

// deskOn is a desk on a store, whose background beats only when the test has it beat.
func deskOn(t testing.TB, k keeper) *Desk {
	t.Helper()
	at := time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC)
	var mu sync.Mutex
	d := newDesk(Options{Shelf: catalog.Builtin(), Now: func() time.Time {
		mu.Lock()
		defer mu.Unlock()
		at = at.Add(time.Second)
		return at
	}})
	d.keep, d.forever = k, ""
	close(d.stopped)
	t.Cleanup(func() { _ = d.Close() })
	return d
}

// bench is a small shop with an alternative.
func bench() *job.Job {
	j := shoptest.Bench()
	j.Title = "Alder Lane Joinery"
	j.Plans = []job.Plan{{ID: "plan.b", Name: "wider", Edits: []job.EditForm{}}}
	return j
}

// opened is a job on a desk.
func opened(t testing.TB, d *Desk, j *job.Job) *Work {
	t.Helper()
	id, err := d.Create(t.Context(), j, "", "")
	if err != nil {
		t.Fatal(err)
	}
	return work(t, d, id)
}

func work(t testing.TB, d *Desk, id string) *Work {
	t.Helper()
	w, err := d.Work(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func now(t testing.TB, w *Work, plan job.ID) Now {
	t.Helper()
	n, err := w.Now(plan)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// text is the document, records apart where asked.
func text(t testing.TB, w *Work, plan job.ID) string {
	t.Helper()
	return written(t, now(t, w, plan).Study.Job())
}

func written(t testing.TB, j *job.Job) string {
	t.Helper()
	b, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// asks is an edit of somebody on the present revision.
func asks(w *Work, by string, edits ...job.Edit) Ask {
	edit := edits[0]
	if len(edits) > 1 {
		edit = job.AllOf("several", edits...)
	}
	return Ask{Base: w.seen.Load().revision, By: by, Make: func(*study.Study) (job.Edit, []job.ID, error) { return edit, nil, nil }}
}

// does makes an edit that must go through.
func does(t testing.TB, w *Work, by string, edits ...job.Edit) Done {
	t.Helper()
	done, err := w.Do(t.Context(), asks(w, by, edits...))
	if err != nil {
		t.Fatal(err)
	}
	return done
}

func set(id job.ID, key, value string) job.Edit {
	return &job.Change{ID: id, Key: key, Value: json.RawMessage(value)}
}

func title(s string) job.Edit { return set("", "title", fmt.Sprintf("%q", s)) }

func tool(n int) job.Edit {
	return job.AddOf(&job.Tool{ID: job.ID(fmt.Sprintf("tool.n-%d", n)), Name: fmt.Sprintf("tool %d", n)})
}

func record(n int) job.Edit {
	return job.AddOf(&job.Record{ID: job.ID(fmt.Sprintf("record.%d", n)), When: "2026-03-14T09:30:00Z", Kind: "note"})
}

// words are the steps of a history, newest first.
func words(t testing.TB, w *Work) []string {
	t.Helper()
	steps, err := w.History(t.Context(), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, s := range steps {
		out = append(out, s.Words)
	}
	return out
}
