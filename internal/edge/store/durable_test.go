package store

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"sync"
	"testing"
)

// TestDurable asserts on the connection that writes what no kill can show: that a
// commit is synced. SQLite, PRAGMA synchronous: 2 is FULL.
func TestDurable(t *testing.T) {
	s, err := Open(t.Context(), newPath(t))
	must(t, err)
	defer s.Close()
	conn, err := s.writer.Conn(t.Context())
	must(t, err)
	for pragma, want := range map[string]string{
		"synchronous": "2", "journal_mode": "wal", "foreign_keys": "1", "busy_timeout": "5000", "fullfsync": "1",
	} {
		var got string
		must(t, conn.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got))
		if got != want {
			t.Errorf("%s is %s, want %s", pragma, got, want)
		}
	}
	must(t, conn.Close())
	if open := s.writer.Stats().MaxOpenConnections; open != 1 {
		t.Errorf("%d connections may write, want 1", open)
	}
	// The same within the transaction that a step is written in.
	must(t, s.change(t.Context(), func(_ context.Context, tx *sql.Tx) error {
		var synchronous, journal string
		err := errors.Join(tx.QueryRow("PRAGMA synchronous").Scan(&synchronous), tx.QueryRow("PRAGMA journal_mode").Scan(&journal))
		if synchronous != "2" || journal != "wal" {
			t.Errorf("in a write: synchronous %s, journal_mode %s", synchronous, journal)
		}
		return err
	}))
	if _, err := s.reader.Exec("DELETE FROM job"); err == nil {
		t.Error("a connection that reads can write")
	}
}

func TestTwoStores(t *testing.T) {
	path := newPath(t)
	a, b := open(t, path, soon(t)), open(t, path, soon(t))
	newJob(t, a, "a")
	must(t, a.Append(t.Context(), "a", stepOf(1)))
	if err := b.Append(t.Context(), "a", stepOf(1)); !errors.Is(err, ErrBehind) {
		t.Errorf("the second of two steps 1: %v", err)
	}
	must(t, b.Append(t.Context(), "a", stepOf(2)))
	saved, err := a.Load(t.Context(), "a")
	if err != nil || saved.Revision != 2 {
		t.Errorf("the first store sees revision %d, %v", saved.Revision, err)
	}
}

func TestChanged(t *testing.T) {
	path := newPath(t)
	a, b := open(t, path, soon(t)), open(t, path, soon(t))
	number := func(s *Store) int64 {
		n, err := s.Changed(t.Context())
		must(t, err)
		return n
	}
	newJob(t, b, "a")
	before, own := number(a), number(b)
	must(t, b.Append(t.Context(), "a", stepOf(1)))
	if number(b) != own {
		t.Error("one's own step counts as another's")
	}
	if number(a) == before {
		t.Error("another's step was not seen")
	}
	before = number(a)
	if _, err := b.Jobs(t.Context()); err != nil || number(a) != before {
		t.Errorf("reading counts as writing: %v", err)
	}
}

// TestRace: of many who write the same revision, one is taken, whichever store it
// comes through.
func TestRace(t *testing.T) {
	path := newPath(t)
	set := soon(t)
	set.busy = busyWait
	stores := []*Store{open(t, path, set), open(t, path, set)}
	newJob(t, stores[0], "a")
	const writers, revisions = 4, 25
	var wins [revisions + 1]int
	var lock sync.Mutex
	var all sync.WaitGroup
	for w := range writers {
		all.Go(func() {
			for revision := 1; revision <= revisions; {
				err := stores[w%2].Append(t.Context(), "a", stepOf(revision))
				switch {
				case err == nil:
					lock.Lock()
					wins[revision]++
					lock.Unlock()
				case !errors.Is(err, ErrBehind):
					t.Error(err)
					return
				}
				saved, err := stores[w%2].Load(t.Context(), "a")
				if err != nil {
					t.Error(err)
					return
				}
				revision = saved.Revision + 1
			}
		})
	}
	all.Wait()
	for revision, n := range wins[1:] {
		if n != 1 {
			t.Errorf("revision %d was acknowledged %d times", revision+1, n)
		}
	}
}

// TestOpenAtOnce: a new file that many open at the same moment is made once.
func TestOpenAtOnce(t *testing.T) {
	path := newPath(t)
	set := soon(t)
	set.busy = busyWait
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			s, err := openWith(t.Context(), path, set)
			if err != nil {
				t.Error(err)
				return
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	names, err := os.ReadDir(path[:len(path)-len("jobs.db")])
	must(t, err)
	for _, name := range names {
		if name.Name() != "jobs.db" {
			t.Errorf("left behind: %s", name.Name())
		}
	}
}

// TestCancelled: a cancelled call writes nothing or all, and the store goes on.
func TestCancelled(t *testing.T) {
	s := open(t, newPath(t), soon(t))
	newJob(t, s, "a")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := s.Append(ctx, "a", stepOf(1)); !errors.Is(err, ctx.Err()) {
		t.Errorf("append: %v", err)
	}
	if _, err := s.Load(ctx, "a"); !errors.Is(err, ctx.Err()) {
		t.Errorf("load: %v", err)
	}
	must(t, s.Append(t.Context(), "a", stepOf(1)))
	before, err := s.Changed(t.Context())
	must(t, err)
	if after, err := s.Changed(t.Context()); err != nil || after != before {
		t.Errorf("changed by nobody: %d, %d, %v", before, after, err)
	}
}
