package desk

import (
	"context"
	"errors"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// ErrAhead is the answer to a base that the job has not come to: whoever asks saw
// what was never saved, and is to fetch the job anew.
var ErrAhead = errors.New("the page shows a later state than the job has: it is to be fetched anew")

// Ask is an edit asked for.
type Ask struct {
	Base int    // the revision that whoever asks has seen
	Plan job.ID // the alternative to make it in, "" for the job itself
	By   string // who asks; edits of one person never contradict each other
	// Key is what whoever asks has thought up for this one step. When it is asked for
	// again under the same key, because the answer was lost, it is not made again and
	// told as it came out. "": it is made however often it is asked for.
	Key string
	// Make makes the edit on the study of the present revision, and tells the ids
	// that it gives. It may be called more than once, and is to give the same edit
	// for the same study. Its error is a *job.Refusal where nothing can be made.
	Make func(*study.Study) (job.Edit, []job.ID, error)
	// Ahead is told the study that the edit gives before it is saved, so that what is
	// asked of it next is worked out meanwhile; it is to return at once. The edit may
	// not come to be after all, and Ahead then be called again. nil: nobody is told.
	Ahead func(*study.Study)
}

// Do makes an edit. When it returns, the edit is in the store, or Saved is false
// and Trouble says why. Where others changed the job since Base, the edit is made
// on what they left; that is Merged. The error is a *Conflict where another has
// changed the same things since, and a *job.Refusal where the edit does not fit.
func (w *Work) Do(ctx context.Context, ask Ask) (Done, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.take(ctx, sender{ask.By, ask.Key}, ask.Plan, func(v *view) (change, error) { return w.asked(ctx, ask, v) })
}

// asked is the change that is asked for.
func (w *Work) asked(ctx context.Context, ask Ask, v *view) (change, error) {
	others, err := w.others(ctx, ask)
	if err != nil {
		return change{}, err
	}
	now, err := v.now(ask.Plan)
	if err != nil {
		return change{}, blame(others, err, nil)
	}
	edit, made, err := ask.Make(now.Study)
	if err != nil {
		return change{}, blame(others, err, nil)
	}
	if ask.Plan != "" {
		edit = job.WithinOf(ask.Plan, edit)
	}
	c, err := w.edited(v, edit)
	if err != nil {
		return change{}, blame(others, err, job.Touches(edit))
	}
	c.step.Kind, c.made, c.merged = kindEdit, made, len(others) > 0
	if len(others) > 0 {
		if clash := clashOf(others, entryOf(c.step).written()); clash != nil {
			return change{}, clash
		}
	}
	if ask.Ahead != nil {
		if ask.Plan == "" {
			ask.Ahead(c.study)
		} else if v, ok := c.variants.peek(ask.Plan); ok {
			ask.Ahead(v.study)
		}
	}
	return c, nil
}

// others lists the steps since the base of an edit that somebody else made.
func (w *Work) others(ctx context.Context, ask Ask) ([]*entry, error) {
	base := ask.Base
	if base > w.seen.Load().revision {
		return nil, ErrAhead
	}
	if base < w.floor {
		base = min(base, w.fork)
	}
	if err := w.reach(ctx, base); err != nil {
		return nil, err
	}
	var out []*entry
	for _, e := range w.log.after(base) {
		if e.By != ask.By && !e.lost && !e.mends() {
			out = append(out, e)
		}
	}
	return out, nil
}

// Adopt makes an alternative the job: its edits are made on the job and the
// alternative goes, in one step. Edits that no longer fit are left out, as they
// were when it was shown. For key see Ask.
func (w *Work) Adopt(ctx context.Context, plan job.ID, base int, by, key string) (Done, error) {
	return w.Do(ctx, Ask{Base: base, By: by, Key: key, Make: func(s *study.Study) (job.Edit, []job.ID, error) {
		edit, found := job.Adoption(s.Job(), plan)
		if edit == nil {
			return nil, nil, &job.Refusal{Findings: found}
		}
		return edit, nil, nil
	}})
}
