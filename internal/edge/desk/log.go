package desk

import (
	"context"
	"errors"
	"slices"

	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// The kinds of steps.
const (
	kindEdit    = "edit"
	kindUndo    = "undo"
	kindRedo    = "redo"
	kindReplace = "replace"
)

// entry is a step in memory, without its document. A step without Edit is a whole
// document; its Inverse is then the document before it. One without Inverse cannot
// be taken back: from it on the job stands as after revision Of.
type entry struct {
	store.Step
	still   bool // taking it back changes nothing, as with a record
	lost    bool // it never came to be part of the job as it stands
	read    bool // touches is filled in
	touches []job.Touch
}

func entryOf(s store.Step) *entry {
	s.Doc = nil
	e := &entry{Step: s}
	e.still = !e.whole() && len(s.Inverse) > 0 && writesNothing(s.Inverse)
	return e
}

func (e *entry) whole() bool { return len(e.Edit) == 0 }

// mends says whether the step only writes down how the job stands.
func (e *entry) mends() bool { return e.whole() && len(e.Inverse) == 0 }

// written lists what the step and its inverse write. The inverse knows what the
// edit alone does not: runs that went with a point, ids that a split gave.
func (e *entry) written() []job.Touch {
	if e.read {
		return e.touches
	}
	e.read = true
	for _, raw := range [][]byte{e.Edit, e.Inverse} {
		edit, bad := job.ParseEditJSON(raw)
		if e.whole() || bad != nil {
			e.touches = []job.Touch{{}} // everything
			return e.touches
		}
		e.touches = append(e.touches, job.Touches(edit)...)
	}
	return e.touches
}

// history is the log from some revision on, and what can be undone and redone.
type history struct {
	from int // all steps after this revision are in the list
	list []*entry
	undo []undoable
	redo []undoable
	// missing is the earliest revision that an undo or redo in the list names
	// and that lies before it; 0 for none.
	missing int
}

// undoable is a step, and the one whose inverse takes it back or does it again.
type undoable struct{ of, by *entry }

// add puts the next step on the log.
func (h *history) add(e *entry) {
	h.list = append(h.list, e)
	h.stack(e)
}

// stack moves what can be undone and redone.
func (h *history) stack(e *entry) {
	switch {
	case e.lost:
	case e.Kind == kindUndo:
		h.undo, h.redo = h.shift(h.undo, h.redo, e)
	case e.Kind == kindRedo:
		h.redo, h.undo = h.shift(h.redo, h.undo, e)
	case e.mends():
		h.undo = slices.DeleteFunc(h.undo, func(u undoable) bool { return u.of.Revision > e.Of })
		h.redo = nil
	case e.still:
		// A record stays, so that there is nothing to undo, and nothing that redo
		// could not stand upon.
	default:
		h.undo, h.redo = append(h.undo, undoable{e, e}), nil
	}
}

// shift takes the step that e names off one stack and puts it on the other.
func (h *history) shift(from, to []undoable, e *entry) (less, more []undoable) {
	for i := len(from) - 1; i >= 0; i-- {
		if from[i].of.Revision == e.Of {
			of := from[i].of
			return slices.Delete(from, i, i+1), append(to, undoable{of, e})
		}
	}
	if e.Of <= h.from && (h.missing == 0 || e.Of < h.missing) {
		h.missing = e.Of
	}
	return from, to
}

// writesNothing says whether an edit changes nothing, as the inverse of a record.
func writesNothing(raw []byte) bool {
	e, bad := job.ParseEditJSON(raw)
	return bad == nil && len(job.Touches(e)) == 0
}

// restack works the stacks out anew.
func (h *history) restack() {
	h.undo, h.redo, h.missing = nil, nil, 0
	for i, e := range h.list {
		if !e.mends() {
			continue
		}
		for _, dead := range h.list[:i] {
			dead.lost = dead.lost || dead.Revision > e.Of
		}
	}
	for _, e := range h.list {
		h.stack(e)
	}
}

// tops are the words of what would be undone and redone.
func (h *history) tops() (undo, redo string) {
	if n := len(h.undo); n > 0 {
		undo = h.undo[n-1].of.Words
	}
	if n := len(h.redo); n > 0 {
		redo = h.redo[n-1].of.Words
	}
	return undo, redo
}

// last is the newest step; there must be one.
func (h *history) last() *entry { return h.list[len(h.list)-1] }

// at is the step of a revision, nil where it is not in the list.
func (h *history) at(revision int) *entry {
	if i := revision - h.from - 1; i >= 0 && i < len(h.list) {
		return h.list[i]
	}
	return nil
}

// after lists the steps after a revision.
func (h *history) after(revision int) []*entry {
	return h.list[min(max(revision-h.from, 0), len(h.list)):]
}

// page is how many steps are fetched at once.
const page = 256

// reach brings all steps after a revision into the log.
func (w *Work) reach(ctx context.Context, revision int) error {
	if w.log.from <= revision {
		return nil
	}
	for w.log.from > revision {
		steps, err := w.desk.keep.History(ctx, w.id, w.log.from+1, max(page, w.log.from-revision))
		if err != nil {
			return err
		}
		if len(steps) == 0 {
			return errors.New("the earlier steps are not in the store")
		}
		slices.Reverse(steps)
		older := make([]*entry, 0, len(steps)+len(w.log.list))
		for _, s := range steps {
			older = append(older, entryOf(s))
		}
		w.log.list = append(older, w.log.list...)
		w.log.from = steps[0].Revision - 1
	}
	w.log.restack()
	return nil
}

// settle fetches what is needed to tell what can be undone and redone.
func (w *Work) settle(ctx context.Context) error {
	for w.log.from > 0 && (len(w.log.undo) == 0 || w.log.missing > 0) {
		want := max(w.log.from-page, 0)
		if w.log.missing > 0 {
			want = min(want, w.log.missing-1)
		}
		if err := w.reach(ctx, want); err != nil {
			return err
		}
	}
	return nil
}
