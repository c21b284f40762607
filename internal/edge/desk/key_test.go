package desk

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// keyed adds a tool under a key. It is thought on the beginning, as what is sent
// again after others have gone on.
func keyed(key string, n int) Ask {
	return Ask{By: "Mika", Key: key, Make: func(*study.Study) (job.Edit, []job.ID, error) {
		return tool(n), []job.ID{job.ID(fmt.Sprintf("tool.n-%d", n))}, nil
	}}
}

// every is each way to make a step under a key.
func every(w *Work, ctx context.Context) map[string]func(key string) (Done, error) {
	return map[string]func(string) (Done, error){
		"step":  func(key string) (Done, error) { return w.Do(ctx, keyed(key, 99)) },
		"undo":  func(key string) (Done, error) { return w.Undo(ctx, "", "Mika", key) },
		"redo":  func(key string) (Done, error) { return w.Redo(ctx, "", "Mika", key) },
		"goto":  func(key string) (Done, error) { return w.GoTo(ctx, 1, "Mika", key) },
		"adopt": func(key string) (Done, error) { return w.Adopt(ctx, "plan.b", 0, "Mika", key) },
	}
}

// ready is a job on which each of them can be made, and twice too, but for adopt.
func ready(t *testing.T, w *Work) {
	t.Helper()
	for n := range 4 {
		does(t, w, "Mika", tool(n))
	}
	for range 2 {
		if _, err := w.Undo(t.Context(), "", "Mika", ""); err != nil {
			t.Fatal(err)
		}
	}
}

// alike holds that a repeat is told as the step was.
func alike(t *testing.T, first, again Done) {
	t.Helper()
	if first.Step == 0 || again.Step != first.Step || again.Words != first.Words ||
		again.Merged != first.Merged || !slices.Equal(again.Made, first.Made) {
		t.Errorf("first %d %q %v, again %d %q %v", first.Step, first.Words, first.Made, again.Step, again.Words, again.Made)
	}
}

// What is sent again under its key is made once, also when others have gone on, and
// when the job was closed and opened.
func TestRepeat(t *testing.T) {
	for name := range every(nil, nil) {
		t.Run(name, func(t *testing.T) {
			k := newMemory()
			w := opened(t, deskOn(t, k), bench())
			ready(t, w)
			first, err := every(w, t.Context())[name]("key-1")
			if err != nil || first.Step != 7 || first.Revision != 7 {
				t.Fatalf("%+v, %v", first, err)
			}
			want := text(t, w, "")
			again, err := every(w, t.Context())[name]("key-1")
			if err != nil || again.Revision != 7 || text(t, w, "") != want {
				t.Fatalf("again: revision %d, %v", again.Revision, err)
			}
			alike(t, first, again)
			does(t, w, "Ida", title("Rope Walk"))
			w = work(t, deskOn(t, k), w.ID()) // as after a kill: nothing was put away
			again, err = every(w, t.Context())[name]("key-1")
			if err != nil || again.Revision != 8 {
				t.Fatalf("opened again: revision %d, %v", again.Revision, err)
			}
			alike(t, first, again)
		})
	}
}

// Without a key, and under another one, a step is made as often as it is asked for.
func TestNoRepeat(t *testing.T) {
	w := opened(t, deskOn(t, newMemory()), bench())
	ready(t, w)
	for i, key := range []string{"", "", "key-1", "key-2"} {
		if done, err := w.Do(t.Context(), keyed(key, 10+i)); err != nil || done.Step != 7+i || !slices.Equal(done.Made, []job.ID{job.ID(fmt.Sprintf("tool.n-%d", 10+i))}) {
			t.Errorf("%q: %+v, %v", key, done.Step, err)
		}
	}
	// What was refused was not made: it is looked at anew.
	var r *job.Refusal
	for range 2 {
		if _, err := w.Do(t.Context(), keyed("key-3", 10)); !errors.As(err, &r) {
			t.Errorf("a second tool of one id: %v", err)
		}
	}
	if done, err := w.Do(t.Context(), keyed("key-3", 20)); err != nil || done.Step != 11 {
		t.Errorf("after a refusal: %+v, %v", done.Step, err)
	}
}

// Of copies that come at the same time one is made, and all are told the same. What
// waits to be saved counts as made.
func TestRepeatAtOnce(t *testing.T) {
	for name, fault := range map[string]error{"saved": nil, "not saved": full()} {
		t.Run(name, func(t *testing.T) {
			k := newFlaky()
			w := opened(t, deskOn(t, k), bench())
			k.breakWith(fault)
			const copies = 8
			var dones [copies]Done
			var faults [copies]error
			var all sync.WaitGroup
			for i := range copies {
				all.Go(func() { dones[i], faults[i] = w.Do(t.Context(), keyed("key-1", 1)) })
			}
			all.Wait()
			for i := range copies {
				if faults[i] != nil || dones[i].Revision != 1 {
					t.Errorf("copy %d: revision %d, %v", i, dones[i].Revision, faults[i])
				}
				alike(t, dones[0], dones[i])
			}
			if len(words(t, w)) != 1 {
				t.Errorf("%q", words(t, w))
			}
		})
	}
}

// A step that another process has taken is known when it comes again to this one.
func TestRepeatElsewhere(t *testing.T) {
	k := newMemory()
	one := opened(t, deskOn(t, k), bench())
	two := work(t, deskOn(t, k), one.ID())
	first, err := one.Do(t.Context(), keyed("key-1", 1))
	if err != nil {
		t.Fatal(err)
	}
	// The other has not looked yet: it finds out when it comes to save.
	ask := keyed("key-1", 2)
	again, err := two.Do(t.Context(), ask)
	if err != nil || again.Revision != 1 {
		t.Fatalf("revision %d, %v", again.Revision, err)
	}
	alike(t, first, again)
}

// A key is remembered for so many steps, on a real store, also from before the
// snapshot that the job is opened from.
func TestKeysRemembered(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.db")
	s, err := store.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	d := deskOn(t, s)
	w := opened(t, d, bench())
	first, err := w.Do(t.Context(), keyed("key-1", 1))
	if err != nil {
		t.Fatal(err)
	}
	for n := range lastKeys - 2 {
		does(t, w, "Ida", tool(n+1000))
	}
	// A snapshot, one step after it, and a kill: with the job that step alone is read.
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	does(t, work(t, deskOn(t, s), w.ID()), "Ida", tool(900))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if s, err = store.Open(t.Context(), path); err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d = deskOn(t, s)
	defer d.Close() // before the store
	w = work(t, d, w.ID())
	again, err := w.Do(t.Context(), keyed("key-1", 1))
	if err != nil || again.Revision != lastKeys || !w.Took("key-1") || w.Took("") {
		t.Fatalf("revision %d, %v", again.Revision, err)
	}
	alike(t, first, again)
	does(t, w, "Ida", title("Rope Walk"))
	if w.Took("key-1") {
		t.Errorf("known after %d steps", lastKeys)
	}
}

// A key that cannot be one is refused before anything is made.
func TestKeysRefused(t *testing.T) {
	w := opened(t, deskOn(t, newMemory()), bench())
	ready(t, w)
	for _, key := range []string{strings.Repeat("k", longestKey+1), "a b", "a\n", "a\x00", "é", "a/b", "'", "\xff"} {
		for name, do := range every(w, t.Context()) {
			if _, err := do(key); !errors.Is(err, ErrKey) {
				t.Errorf("%s under %q: %v", name, key, err)
			}
		}
	}
	if done, err := w.Do(t.Context(), keyed(strings.Repeat("Z", longestKey-2)+"-_", 1000)); err != nil || done.Step != 7 {
		t.Errorf("the longest key: %d, %v", done.Step, err)
	}
}
