package desk

import (
	"errors"
	"testing"
)

// Every revision can be looked at as it was: kept in the store, on its way there, and after
// the job was opened anew; looking changes nothing.
func TestAt(t *testing.T) {
	k := newFlaky()
	d := deskOn(t, k)
	w := opened(t, d, bench())
	then := []string{text(t, w, "")}
	for n := range 6 {
		if n == 4 {
			k.breakWith(full())
		}
		does(t, w, "Ida", tool(n))
		then = append(then, text(t, w, ""))
	}
	look := func(w *Work) {
		t.Helper()
		for revision, want := range then {
			s, err := w.At(t.Context(), revision)
			if err != nil {
				t.Fatalf("revision %d: %v", revision, err)
			}
			if written(t, s.Job()) != want {
				t.Errorf("revision %d is another job", revision)
			}
		}
		for _, none := range []int{-1, len(then)} {
			if _, err := w.At(t.Context(), none); !errors.Is(err, ErrNoRevision) {
				t.Errorf("revision %d: %v", none, err)
			}
		}
		if now(t, w, "").Revision != len(then)-1 {
			t.Errorf("at revision %d", now(t, w, "").Revision)
		}
	}
	look(w)
	k.breakWith(nil)
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	look(work(t, deskOn(t, k), w.ID()))
}
