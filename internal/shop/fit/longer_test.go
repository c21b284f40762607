package fit_test

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// A line that became 40 mm longer is 40 mm longer after an ordinary edit, and as it was
// after its undo; where the room ends the gesture is refused in words.
func TestLonger(t *testing.T) {
	text, _ := example.Read("boat-shop")
	j, _ := job.Parse(text)
	ix := job.NewIndex(j)
	done := 0
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		before, known := ix.LengthOf(r)
		e, _, err := (&fit.Longer{Run: r.ID, By: 0.04}).Edit(ix, catalog.Builtin())
		if err != nil || !known {
			continue
		}
		if words := e.Words(j); !strings.HasSuffix(words, " 40 mm longer") && !strings.HasPrefix(words, "made ") {
			t.Errorf("%s: %q", r.ID, words)
		}
		next, back, err := e.Apply(j)
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		to := job.NewIndex(next)
		if after, _ := to.LengthOf(to.Run(r.ID)); math.Abs(float64(after-before)-0.04) < 1e-9 {
			done++
		}
		again, _, err := back.Apply(next)
		if err != nil {
			t.Errorf("%s: undo: %v", r.ID, err)
			continue
		}
		was := job.NewIndex(again)
		if l, _ := was.LengthOf(was.Run(r.ID)); math.Abs(float64(l-before)) > 1e-9 {
			t.Errorf("%s: %v after undo, %v before", r.ID, l, before)
		}
	}
	if done < len(j.Net.Runs)/2 {
		t.Errorf("%d of %d lines can become longer", done, len(j.Net.Runs))
	}
	for _, bad := range []fit.Longer{{Run: "line.none", By: 1}, {Run: j.Net.Runs[0].ID}, {Run: j.Net.Runs[0].ID, By: -unit.Length(99)}} {
		if _, _, err := bad.Edit(ix, catalog.Builtin()); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
}
