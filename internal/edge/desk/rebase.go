package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// strand is a log that grows by steps from the store or the queue, and the job at
// its end.
type strand struct {
	work *Work
	list []*entry
	now  *view
}

// put adds a step.
func (s *strand) put(step store.Step) error {
	next, alternatives, err := s.work.follow(s.now, step)
	if err != nil {
		return err
	}
	s.list = append(s.list, entryOf(step))
	s.now = &view{revision: step.Revision, study: next, variants: alternatives}
	return nil
}

// rebase puts the steps that wait to be saved, the first of which was to be a
// certain revision, on top of those that another process saved instead. A step
// that no longer fits stays in the log by its words, without effect, and is told.
// Revisions from first on mean something else afterwards; that they end higher
// than before is what the floor rests on. w.mu is held.
func (w *Work) rebase(first int, theirs []store.Step) error {
	now, err := w.before(first)
	if err != nil {
		return err
	}
	s := &strand{w, slices.Clone(w.log.list[:max(first-1-w.log.from, 0)]), now}
	for _, step := range theirs {
		if err := s.put(step); err != nil {
			return err
		}
	}
	shore := s.now
	queue := make([]store.Step, 0, len(w.save.queue))
	moved := map[int]int{} // revisions of ours, as they were and as they are
	var left []string
	for _, old := range w.save.queue {
		step, fits := w.again(s.now, old, moved)
		if !fits {
			left = append(left, fmt.Sprintf("%q", old.Words))
		}
		moved[old.Revision] = step.Revision
		if err := s.put(step); err != nil {
			return err
		}
		queue = append(queue, step)
	}
	if left != nil {
		w.standing = fmt.Sprintf("%s could not be kept, as another program had changed the job meanwhile: %s.",
			countOf(len(left), "change"), strings.Join(left, ", "))
	}
	w.save.shore, w.save.queue, w.log.list = shore, queue, s.list
	w.fork, w.floor = first-1, s.now.revision
	w.log.restack()
	w.show(s.now.revision, s.now.study, s.now.variants)
	return nil
}

// before is the job as it stood before a revision that waits to be saved.
func (w *Work) before(revision int) (*view, error) {
	if v := w.save.shore; v.revision == revision-1 {
		return v, nil
	}
	// Some of what waited was stored already: the shore lies further back.
	saved, err := w.desk.keep.LoadAt(context.Background(), w.id, revision-1)
	if err != nil {
		return nil, err
	}
	return w.viewOf(saved)
}

// again is a step of ours made on another state of the job. Where it does not fit
// it does nothing.
func (w *Work) again(v *view, s store.Step, moved map[int]int) (store.Step, bool) {
	s.Revision = v.revision + 1
	if to, ok := moved[s.Of]; ok {
		s.Of = to
	}
	c, err := w.madeAgain(v, s)
	if err == nil {
		s.Edit, s.Inverse, s.Doc = c.step.Edit, c.step.Inverse, c.step.Doc
		return s, true
	}
	nothing := []byte(`{"edit":"all","edits":[]}`)
	s.Kind, s.Of, s.Edit, s.Inverse, s.Doc, s.Made = kindEdit, 0, nothing, nothing, nil, nil
	s.Words = "left out, as it no longer fits: " + s.Words
	return s, false
}

func (w *Work) madeAgain(v *view, s store.Step) (change, error) {
	if len(s.Doc) > 0 {
		j, bad := job.Parse(s.Doc)
		if bad != nil {
			return change{}, &job.Refusal{Findings: bad}
		}
		return w.replaced(v, j)
	}
	edit, bad := job.ParseEditJSON(s.Edit)
	if bad != nil {
		return change{}, &job.Refusal{Findings: bad}
	}
	return w.edited(v, edit)
}
