package desk

import (
	"context"
	"errors"
	"fmt"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// load opens the job.
func (w *Work) load(ctx context.Context) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.reload(ctx)
}

// reload opens the job from the store, or opens it anew. Steps that no longer fit,
// because the program has changed, are left standing in the log and told. w.mu is
// held, and nothing waits to be saved.
func (w *Work) reload(ctx context.Context) error {
	r, err := w.read(ctx)
	if err != nil {
		return err
	}
	w.log = history{from: r.from}
	for _, s := range r.steps {
		e := entryOf(s)
		e.lost = r.lost > 0 && s.Revision > r.stands
		w.log.list = append(w.log.list, e)
	}
	w.log.restack()
	w.lost, w.stands, w.standing = r.lost > 0, r.stands, r.trouble
	w.save = saving{kept: r.kept}
	w.idle = 0
	if err := w.settle(ctx); err != nil {
		return err
	}
	// A step may come again that was taken before the program was started anew.
	if err := w.reach(ctx, max(r.revision-lastKeys, 0)); err != nil {
		return err
	}
	w.show(r.revision, study.Of(r.job, w.desk.shelf), &variants{})
	w.save.shore = w.seen.Load()
	return nil
}

// reading is a job read from the store.
type reading struct {
	job      *job.Job
	revision int
	kept     int          // revision of the snapshot
	from     int          // revision that the steps begin after
	steps    []store.Step // up to the revision
	stands   int          // revision of the last step that fits
	lost     int          // how many steps do not
	trouble  string
}

// read reads the job from its newest snapshot that can be read.
func (w *Work) read(ctx context.Context) (reading, error) {
	saved, err := w.desk.keep.Load(ctx, w.id)
	if err != nil {
		return reading{}, err
	}
	r := reading{revision: saved.Revision, kept: saved.At}
	doc, at := saved.Doc, saved.At
	steps := saved.Steps
	var found []job.Finding
	for r.job, found = job.Parse(doc); r.job == nil; r.job, found = job.Parse(doc) {
		older, err := w.desk.keep.LoadAt(ctx, w.id, at-1)
		if err != nil {
			return reading{}, errors.Join(&job.Refusal{Findings: found}, err)
		}
		if steps, err = w.desk.keep.Steps(ctx, w.id, older.At); err != nil {
			return reading{}, err
		}
		doc, at = older.Doc, older.At
		r.trouble = "The job as last written down cannot be read and was worked out anew from its history."
	}
	r.from, r.steps = at, steps
	r.job, r.stands = replay(r.job, at, steps)
	if r.lost = r.revision - r.stands; r.lost > 0 {
		words := ""
		for _, s := range steps {
			if s.Revision == r.stands+1 {
				words = s.Words
			}
		}
		r.trouble = fmt.Sprintf("%s from revision %d on (%q) can no longer be repeated with this program: the job is shown as it was before. Nothing is deleted.",
			countOf(r.lost, "step"), r.stands+1, words)
	}
	return r, nil
}

// replay repeats steps on a job as of revision at and gives what it becomes and
// the revision that it then stands at: the last step that fits. A later step that
// brings a whole document goes on from there.
func replay(j *job.Job, at int, steps []store.Step) (*job.Job, int) {
	stands, fits := at, true
	for _, s := range steps {
		switch {
		case len(s.Doc) > 0:
			if whole, bad := job.Parse(s.Doc); bad == nil {
				j, stands, fits = whole, s.Revision, true
				continue
			}
			fits = false
		case fits:
			if after, err := repeat(j, s.Edit); err == nil {
				j, stands = after, s.Revision
				continue
			}
			fits = false
		}
	}
	return j, stands
}

// repeat applies an edit from the log.
func repeat(j *job.Job, raw []byte) (*job.Job, error) {
	edit, bad := job.ParseEditJSON(raw)
	if bad != nil {
		return nil, &job.Refusal{Findings: bad}
	}
	after, _, err := edit.Apply(j)
	return after, err
}

// pull brings in the steps that another process has saved and tells how many.
// w.mu is held, and nothing waits to be saved.
func (w *Work) pull(ctx context.Context) (int, error) {
	steps, err := w.desk.keep.Steps(ctx, w.id, w.save.shore.revision)
	if err != nil || len(steps) == 0 {
		return 0, err
	}
	if w.lost {
		return len(steps), w.reload(ctx)
	}
	for _, s := range steps {
		next, alternatives, err := w.follow(w.seen.Load(), s)
		if err != nil {
			return len(steps), w.reload(ctx)
		}
		w.log.add(entryOf(s))
		w.show(s.Revision, next, alternatives)
		w.save.shore = w.seen.Load()
	}
	w.idle = 0
	return len(steps), nil
}

// follow is the job after a step from the log.
func (w *Work) follow(v *view, s store.Step) (*study.Study, *variants, error) {
	if len(s.Doc) > 0 {
		j, bad := job.Parse(s.Doc)
		if bad != nil {
			return nil, nil, &job.Refusal{Findings: bad}
		}
		return study.Of(j, w.desk.shelf), &variants{}, nil
	}
	edit, bad := job.ParseEditJSON(s.Edit)
	if bad != nil {
		return nil, nil, &job.Refusal{Findings: bad}
	}
	next, err := v.study.After(edit)
	if err != nil {
		return nil, nil, err
	}
	return next, v.variants.after(edit, v.study.Job(), next.Job()), nil
}

// countOf is "1 step" or "3 steps".
func countOf(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
