package desk

import (
	"context"
	"errors"
	"fmt"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// What cannot be done, and is no fault of anything.
var (
	ErrNothingToUndo = errors.New("there is nothing to undo")
	ErrNothingToRedo = errors.New("there is nothing to redo")
	ErrNoRevision    = errors.New("the job has no such revision")
)

// Undo takes the last step back, whoever made it and wherever; plan only says
// what is to be shown after. Records stay. The error is a *job.Refusal where what
// would take it back does not fit.
func (w *Work) Undo(ctx context.Context, plan job.ID, by, key string) (Done, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.take(ctx, sender{by, key}, plan, func(v *view) (change, error) {
		n := len(w.log.undo)
		if n == 0 {
			return change{}, ErrNothingToUndo
		}
		return w.back(v, w.log.undo[n-1], kindUndo, by)
	})
}

// Redo does again what was undone last, as long as nothing else was done since.
func (w *Work) Redo(ctx context.Context, plan job.ID, by, key string) (Done, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.take(ctx, sender{by, key}, plan, func(v *view) (change, error) {
		n := len(w.log.redo)
		if n == 0 {
			return change{}, ErrNothingToRedo
		}
		return w.back(v, w.log.redo[n-1], kindRedo, by)
	})
}

// back is the change by the inverse of a step.
func (w *Work) back(v *view, u undoable, kind, by string) (change, error) {
	c, err := w.inverted(v, u.by)
	if err != nil {
		return change{}, err
	}
	c.step.Kind, c.step.Of = kind, u.of.Revision
	said := "undid"
	if kind == kindRedo {
		said = "did again"
	}
	if u.of.By != by && u.of.By != "" {
		said += " what " + u.of.By + " did"
	}
	c.step.Words = said + ": " + u.of.Words
	return c, nil
}

// inverted is the change that a step's inverse makes.
func (w *Work) inverted(v *view, e *entry) (change, error) {
	if e.whole() {
		j, bad := job.Parse(e.Inverse)
		if bad != nil {
			return change{}, &job.Refusal{Findings: bad}
		}
		return w.replaced(v, j)
	}
	edit, bad := job.ParseEditJSON(e.Inverse)
	if bad != nil {
		return change{}, &job.Refusal{Findings: bad}
	}
	return w.edited(v, edit)
}

// mostInverses is up to how many steps GoTo writes the inverses down rather than
// the whole document.
const mostInverses = 256

// GoTo brings the job back to how it stood at a revision, or forward again where
// it was brought back: one step, that can be undone. Records stay.
func (w *Work) GoTo(ctx context.Context, revision int, by, key string) (Done, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.take(ctx, sender{by, key}, "", func(v *view) (change, error) {
		if revision < 0 || revision >= v.revision {
			return change{}, fmt.Errorf("%w: %d of %d", ErrNoRevision, revision, v.revision)
		}
		if err := w.reach(ctx, max(revision-1, 0)); err != nil {
			return change{}, err
		}
		c, err := w.gone(ctx, v, revision)
		if err != nil {
			return change{}, err
		}
		c.step.Kind, c.step.Of, c.step.Words = kindReplace, revision, "went back to the beginning"
		if e := w.log.at(revision); e != nil {
			c.step.Words = "went back to: " + e.Words
		}
		return c, nil
	})
}

// gone is the change to how the job stood at a revision.
func (w *Work) gone(ctx context.Context, v *view, revision int) (change, error) {
	steps := w.log.after(revision)
	var edits []job.Edit
	for i := len(steps) - 1; i >= 0; i-- {
		e := steps[i]
		edit, bad := job.ParseEditJSON(e.Inverse)
		if e.whole() || e.lost || bad != nil || len(edits) == mostInverses {
			return w.goneByStore(ctx, v, revision)
		}
		edits = append(edits, edit)
	}
	c, err := w.edited(v, job.AllOf("", edits...))
	if err != nil {
		return w.goneByStore(ctx, v, revision)
	}
	return c, nil
}

// goneByStore works the revision out from the nearest snapshot.
func (w *Work) goneByStore(ctx context.Context, v *view, revision int) (change, error) {
	then, err := w.past(ctx, revision)
	if err != nil {
		return change{}, err
	}
	return w.replaced(v, then.study.Job())
}

// stored is the job as it stood at a revision, as far as that is in the store.
func (w *Work) stored(ctx context.Context, revision int) (store.Saved, error) {
	if b := w.save.birth; b != nil {
		return store.Saved{Entry: b.head, Doc: b.doc}, nil
	}
	if len(w.save.queue) > 0 {
		revision = min(revision, w.save.queue[0].Revision-1)
	}
	return w.desk.keep.LoadAt(ctx, w.id, revision)
}

// viewOf is the job as the store gave it, which must come to its last step.
func (w *Work) viewOf(saved store.Saved) (*view, error) {
	j, bad := job.Parse(saved.Doc)
	if bad != nil {
		return nil, &job.Refusal{Findings: bad}
	}
	j, stands := replay(j, saved.At, saved.Steps)
	last := saved.At
	if n := len(saved.Steps); n > 0 {
		last = saved.Steps[n-1].Revision
	}
	if stands != last {
		return nil, fmt.Errorf("revision %d can no longer be worked out with this program: the step after revision %d does not fit", last, stands)
	}
	return &view{revision: stands, study: study.Of(j, w.desk.shelf), variants: &variants{}}, nil
}

// Replace puts another document in the job's place: one step, that can be undone.
// Records stay, and those that the other has besides are added.
func (w *Work) Replace(ctx context.Context, j *job.Job, words, by string) (Done, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.take(ctx, sender{by: by}, "", func(v *view) (change, error) {
		c, err := w.replaced(v, j)
		if err != nil {
			return change{}, err
		}
		c.step.Kind, c.step.Words = kindReplace, words
		return c, nil
	})
}
