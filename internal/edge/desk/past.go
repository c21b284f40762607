package desk

import (
	"context"
	"fmt"

	"dropleg/internal/answer/study"
)

// At is the job itself as it stood after a revision: the present one at once, an earlier
// one worked out from the nearest snapshot. An error is ErrNoRevision where there was no
// such revision, or the store's.
func (w *Work) At(ctx context.Context, revision int) (*study.Study, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	v := w.seen.Load()
	switch {
	case revision < 0 || revision > v.revision:
		return nil, fmt.Errorf("%w: %d of %d", ErrNoRevision, revision, v.revision)
	case revision == v.revision:
		return v.study, nil
	}
	then, err := w.past(ctx, revision)
	if err != nil {
		return nil, err
	}
	return then.study, nil
}

// past works an earlier revision out from the nearest snapshot and the steps after it.
// w.mu is held.
func (w *Work) past(ctx context.Context, revision int) (*view, error) {
	saved, err := w.stored(ctx, revision)
	if err != nil {
		return nil, err
	}
	for _, s := range w.save.queue {
		if s.Revision <= revision {
			saved.Steps = append(saved.Steps, s)
		}
	}
	return w.viewOf(saved)
}
