package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// kept is the simplest store there can be: what the real one must agree with after any
// calls in any order.
type kept struct {
	entry Entry
	docs  map[int][]byte
	steps []Step
}

// TestAnyCalls draws calls on one job through two stores on one file, opened anew in
// between, and compares after each.
func TestAnyCalls(t *testing.T) {
	path := filepath.Join(t.TempDir(), "jobs.db")
	set := soon(t)
	number := 0
	rapid.Check(t, func(r *rapid.T) {
		number++
		id := fmt.Sprint("job-", number)
		stores := make([]*Store, 2)
		for i := range stores {
			s, err := openWith(context.Background(), path, set)
			if err != nil {
				r.Fatal(err)
			}
			defer s.Close()
			stores[i] = s
		}
		first := rapid.IntRange(0, 3).Draw(r, "first")
		k := kept{
			entry: Entry{ID: id, Revision: first, Created: moment(0), Changed: moment(0)},
			docs:  map[int][]byte{first: document(first)},
		}
		if err := stores[0].Create(context.Background(), k.entry, document(first)); err != nil {
			r.Fatal(err)
		}
		for range rapid.IntRange(1, 25).Draw(r, "calls") {
			s := stores[rapid.IntRange(0, 1).Draw(r, "store")]
			k.call(r, s)
			k.compare(r, stores[rapid.IntRange(0, 1).Draw(r, "reader")])
		}
	})
}

func (k *kept) call(r *rapid.T, s *Store) {
	ctx, id := context.Background(), k.entry.ID
	revision := k.entry.Revision + rapid.IntRange(-2, 2).Draw(r, "revision")
	var err, want error
	switch rapid.SampledFrom([]string{"append", "append", "append", "any", "keep", "remove", "restore", "origin"}).Draw(r, "call") {
	case "append":
		err = s.Append(ctx, id, stepOf(k.entry.Revision+1))
		k.take(k.entry.Revision + 1)
	case "any":
		err = s.Append(ctx, id, stepOf(revision))
		if revision == k.entry.Revision+1 {
			k.take(revision)
		} else {
			want = ErrBehind
		}
	case "keep":
		title := rapid.StringMatching(`[ -~äØ³]{0,12}`).Draw(r, "title")
		revision = max(revision, 0)
		err = s.Keep(ctx, id, revision, title, document(revision), nil)
		if revision > k.entry.Revision {
			want = ErrBehind
			break
		}
		newest := true
		for at := range k.docs {
			newest = newest && at <= revision
		}
		if newest {
			k.entry.Title = title
		}
		k.docs[revision] = document(revision)
	case "remove":
		err, k.entry.Removed = s.Remove(ctx, id), true
	case "restore":
		err, k.entry.Removed = s.Restore(ctx, id), false
	case "origin":
		k.entry.Origin = rapid.String().Draw(r, "origin")
		err = s.SetOrigin(ctx, id, k.entry.Origin, "")
	}
	if !errors.Is(err, want) || (err != nil) != (want != nil) {
		r.Fatalf("got %v, want %v", err, want)
	}
}

func (k *kept) take(revision int) {
	k.steps = append(k.steps, stepOf(revision))
	k.entry.Revision, k.entry.Changed = revision, moment(revision)
}

func (k *kept) compare(r *rapid.T, s *Store) {
	want := Saved{Entry: k.entry}
	for at := range k.docs {
		want.At = max(want.At, at)
	}
	want.Doc = k.docs[want.At]
	for _, step := range k.steps {
		if step.Revision > want.At {
			want.Steps = append(want.Steps, step)
		}
	}
	got, err := s.Load(context.Background(), k.entry.ID)
	if err != nil {
		r.Fatal(err)
	}
	// Diff alone is slow on documents.
	if !reflect.DeepEqual(want, got) {
		r.Fatal(cmp.Diff(want, got))
	}
	steps, err := s.History(context.Background(), k.entry.ID, 0, 0)
	if err != nil || len(steps) != len(k.steps) {
		r.Fatalf("%d steps in the history, want %d: %v", len(steps), len(k.steps), err)
	}
}
