package desk

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"dropleg/internal/edge/store"
)

// memory keeps jobs as long as the program runs, where there is no store.
type memory struct {
	mu      sync.Mutex
	jobs    map[string]*remembered
	written int64
}

type remembered struct {
	head      store.Entry
	steps     []store.Step
	snapshots []snapshot // in order, the first being the job as it began
	thumb     []byte
	pictures  map[string]picture
}

type snapshot struct {
	at  int
	doc []byte
}

type picture struct {
	kind string
	data []byte
}

func newMemory() *memory { return &memory{jobs: map[string]*remembered{}} }

// with runs f on a job, which must be there.
func (m *memory) with(id string, f func(*remembered) error) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	j := m.jobs[id]
	if j == nil {
		return fmt.Errorf("job %q is %w", id, store.ErrNotThere)
	}
	return f(j)
}

// write is with for what changes a job.
func (m *memory) write(id string, f func(*remembered) error) error {
	return m.with(id, func(j *remembered) error {
		err := f(j)
		if err == nil {
			m.written++
		}
		return err
	})
}

func (m *memory) Jobs(context.Context) ([]store.Entry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []store.Entry
	for _, j := range m.jobs {
		out = append(out, j.head)
	}
	slices.SortFunc(out, func(a, b store.Entry) int {
		return cmp.Or(b.Changed.Compare(a.Changed), cmp.Compare(a.ID, b.ID))
	})
	return out, nil
}

func (m *memory) Create(_ context.Context, e store.Entry, doc []byte) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.jobs[e.ID] != nil {
		return fmt.Errorf("job %s %w", e.ID, store.ErrTaken)
	}
	m.jobs[e.ID] = &remembered{head: e, snapshots: []snapshot{{e.Revision, doc}}, pictures: map[string]picture{}}
	m.written++
	return nil
}

func (m *memory) Load(ctx context.Context, id string) (store.Saved, error) {
	return m.load(id, func(j *remembered) int { return j.head.Revision })
}

func (m *memory) LoadAt(_ context.Context, id string, revision int) (store.Saved, error) {
	return m.load(id, func(*remembered) int { return revision })
}

func (m *memory) load(id string, upTo func(*remembered) int) (out store.Saved, err error) {
	err = m.with(id, func(j *remembered) error {
		to := upTo(j)
		if to > j.head.Revision || to < j.snapshots[0].at {
			return fmt.Errorf("revision %d of job %s is %w", to, id, store.ErrNotThere)
		}
		out.Entry = j.head
		for _, s := range j.snapshots {
			if s.at <= to {
				out.At, out.Doc = s.at, s.doc
			}
		}
		for _, s := range j.steps {
			if s.Revision > out.At && s.Revision <= to {
				out.Steps = append(out.Steps, s)
			}
		}
		return nil
	})
	return out, err
}

func (m *memory) Append(_ context.Context, id string, s store.Step) error {
	return m.write(id, func(j *remembered) error {
		if s.Revision != j.head.Revision+1 {
			return fmt.Errorf("job %s: step %d %w", id, s.Revision, store.ErrBehind)
		}
		j.steps = append(j.steps, s)
		j.head.Revision, j.head.Changed = s.Revision, s.When
		return nil
	})
}

// Keep holds the first snapshot and the newest one.
func (m *memory) Keep(_ context.Context, id string, revision int, title string, doc, thumb []byte) error {
	return m.write(id, func(j *remembered) error {
		if revision > j.head.Revision {
			return fmt.Errorf("job %s: a snapshot of revision %d %w", id, revision, store.ErrBehind)
		}
		if j.snapshots = j.snapshots[:1]; revision > j.snapshots[0].at {
			j.snapshots = append(j.snapshots, snapshot{revision, doc})
		}
		if j.head.Title = title; thumb != nil {
			j.thumb = thumb
		}
		return nil
	})
}

func (m *memory) History(_ context.Context, id string, before, most int) (out []store.Step, err error) {
	err = m.with(id, func(j *remembered) error {
		for _, s := range slices.Backward(j.steps) {
			if before > 0 && s.Revision >= before || most > 0 && len(out) == most {
				continue
			}
			s.Doc = nil
			out = append(out, s)
		}
		return nil
	})
	return out, err
}

func (m *memory) Steps(_ context.Context, id string, after int) (out []store.Step, err error) {
	err = m.with(id, func(j *remembered) error {
		for _, s := range j.steps {
			if s.Revision > after {
				out = append(out, s)
			}
		}
		return nil
	})
	return out, err
}

func (m *memory) Thumb(_ context.Context, id string) (data []byte, err error) {
	err = m.with(id, func(j *remembered) error { data = j.thumb; return nil })
	return data, err
}

func (m *memory) Remove(_ context.Context, id string) error {
	return m.write(id, func(j *remembered) error { j.head.Removed = true; return nil })
}

func (m *memory) Restore(_ context.Context, id string) error {
	return m.write(id, func(j *remembered) error { j.head.Removed = false; return nil })
}

func (m *memory) SetOrigin(_ context.Context, id, origin, sum string) error {
	return m.write(id, func(j *remembered) error { j.head.Origin, j.head.OriginSum = origin, sum; return nil })
}

func (m *memory) PutPicture(_ context.Context, id, name, kind string, data []byte) error {
	return m.write(id, func(j *remembered) error { j.pictures[name] = picture{kind, data}; return nil })
}

func (m *memory) Picture(_ context.Context, id, name string) (kind string, data []byte, err error) {
	err = m.with(id, func(j *remembered) error {
		p, ok := j.pictures[name]
		if !ok {
			return fmt.Errorf("picture %q of job %q is %w", name, id, store.ErrNotThere)
		}
		kind, data = p.kind, p.data
		return nil
	})
	return kind, data, err
}

func (m *memory) Pictures(_ context.Context, id string) (names []string, err error) {
	err = m.with(id, func(j *remembered) error { names = slices.Sorted(maps.Keys(j.pictures)); return nil })
	return names, err
}

func (m *memory) Backup(context.Context, string) error {
	return errors.New("there is no store to back up: the jobs are in memory only; export them one by one")
}

func (m *memory) Changed(context.Context) (int64, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.written, nil
}
