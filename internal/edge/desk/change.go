package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// change is one step that is ready to be taken: what goes into the log, and what
// the job becomes.
type change struct {
	step     store.Step // without its revision and time
	study    *study.Study
	variants *variants
	made     []job.ID
	merged   bool
}

// sender is who asks for a change, and under which key; see Ask.
type sender struct{ by, key string }

// Done is a change that was made.
type Done struct {
	Now
	Step   int // the revision that it gave
	Words  string
	Made   []job.ID // the ids of what is new, the leading one first
	Merged bool     // others had changed the job since the base
}

// edited is a change by an edit. What is applied is what will be read from the
// log, so that the job comes out the same when it is opened again. The error is a
// *job.Refusal where the edit does not fit.
func (w *Work) edited(v *view, made job.Edit) (change, error) {
	raw, err := formOf(made)
	if err != nil {
		return change{}, err
	}
	edit, bad := job.ParseEditJSON(raw)
	if bad != nil {
		return change{}, &job.Refusal{Findings: bad}
	}
	before := v.study.Job()
	after, inverse, err := edit.Apply(before)
	if err != nil {
		return change{}, err
	}
	back, err := formOf(inverse)
	if err != nil {
		return change{}, err
	}
	return change{
		step:  store.Step{Edit: raw, Inverse: back, Words: edit.Words(before)},
		study: v.study.Next(after), variants: v.variants.after(edit, before, after),
	}, nil
}

// replaced is a change to another document. Records stay and are added to.
func (w *Work) replaced(v *view, j *job.Job) (change, error) {
	before := v.study.Job()
	whole := *j
	whole.Records = recordsOf(before, j)
	doc, err := whole.Encode()
	if err != nil {
		return change{}, err
	}
	back, err := before.Encode()
	if err != nil {
		return change{}, err
	}
	return change{
		step:  store.Step{Inverse: back, Doc: doc},
		study: v.study.Next(&whole), variants: &variants{},
	}, nil
}

// recordsOf are the records of a job and those that another has besides.
func recordsOf(now, other *job.Job) []job.Record {
	out := now.Records[:len(now.Records):len(now.Records)]
	have := map[job.ID]bool{}
	for i := range out {
		have[out[i].ID] = true
	}
	for _, r := range other.Records {
		if !have[r.ID] {
			out = append(out, r)
		}
	}
	return out
}

// formOf is an edit as it goes into the log.
func formOf(e job.Edit) ([]byte, error) {
	raw, err := e.Form().MarshalJSON()
	if err != nil {
		return nil, err
	}
	var short bytes.Buffer
	if err := json.Compact(&short, raw); err != nil {
		return nil, fmt.Errorf("writing an edit: %w", err)
	}
	return short.Bytes(), nil
}

// errBehind says that another process was quicker; its steps are in the view now.
var errBehind = errors.New("another process changed the job")

// mostTries bounds how often a change is made anew because another process was
// quicker.
const mostTries = 20

// take makes a change on the present view, saves it and shows it. It is made again
// where another process was quicker. One that was sent before under the same key is
// told as it came out then, and not made again. w.mu is held.
func (w *Work) take(ctx context.Context, from sender, plan job.ID, form func(*view) (change, error)) (Done, error) {
	if err := checkKey(from.key); err != nil {
		return Done{}, err
	}
	for range mostTries {
		if err := ctx.Err(); err != nil {
			return Done{}, err
		}
		if w.closed {
			return Done{}, ErrClosed
		}
		// Looked for at every try: the other process may have taken it.
		if e := w.sent(from.key); e != nil {
			return w.took(e, plan)
		}
		if w.lost {
			if err := w.goOn(ctx); errors.Is(err, errBehind) {
				continue
			} else if err != nil {
				return Done{}, err
			}
		}
		c, err := form(w.seen.Load())
		if err != nil {
			return Done{}, err
		}
		c.sign(from, plan)
		err = w.put(ctx, c)
		if errors.Is(err, errBehind) {
			continue
		}
		if err != nil {
			return Done{}, err
		}
		return w.took(w.log.last(), plan)
	}
	return Done{}, errBehind
}

// sign writes into the step what is remembered of its sending.
func (c *change) sign(from sender, plan job.ID) {
	c.step.By, c.step.Key, c.step.Plan, c.step.Merged = from.by, from.key, string(plan), c.merged
	for _, id := range c.made {
		c.step.Made = append(c.step.Made, string(id))
	}
}

// put saves a change and shows it.
func (w *Work) put(ctx context.Context, c change) error {
	s := c.step
	s.Revision, s.When = w.seen.Load().revision+1, w.desk.stamp()
	if err := w.store(ctx, s); err != nil {
		return err
	}
	w.log.add(entryOf(s))
	w.idle = 0
	// What cannot be fetched is not told of; the change itself is in order.
	_ = w.settle(ctx)
	w.show(s.Revision, c.study, c.variants)
	if !w.save.waits() {
		w.save.shore = w.seen.Load()
		if s.Revision-w.save.kept >= keepEvery {
			w.desk.wake()
		}
	}
	return nil
}

// goOn takes up a job of which the last steps no longer fit: from here on it
// stands as after the last that does, and loading starts here.
func (w *Work) goOn(ctx context.Context) error {
	v := w.seen.Load()
	doc, err := v.study.Job().Encode()
	if err != nil {
		return err
	}
	err = w.put(ctx, change{
		step: store.Step{
			Kind: kindReplace, Of: w.stands, Doc: doc,
			Words: fmt.Sprintf("went on from revision %d, as the steps after it no longer fit", w.stands),
		},
		study: v.study, variants: v.variants,
	})
	if err == nil {
		w.lost = false
	}
	return err
}
