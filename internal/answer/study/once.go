package study

import (
	"context"
	"errors"
	"sync"
)

// once keeps one answer: computed by the first who asks, waited for by the
// rest, kept with its failure, but forgotten when it was cancelled.
type once[T any] struct {
	mu   sync.Mutex
	busy chan struct{} // closed when the computation under way ends
	done bool
	val  T
	err  error
}

// get returns the answer, computing it if nobody has. A caller whose own ctx
// ends while another computes returns at once; the computation belongs to the
// caller that started it and ends with that one's ctx, then the next takes over.
func (o *once[T]) get(ctx context.Context, compute func(context.Context) (T, error)) (T, error) {
	var none T
	for {
		if err := ctx.Err(); err != nil {
			return none, err
		}
		o.mu.Lock()
		if o.done {
			defer o.mu.Unlock()
			return o.val, o.err
		}
		if o.busy == nil {
			o.busy = make(chan struct{})
			o.mu.Unlock()
			return o.run(ctx, compute)
		}
		wait := o.busy
		o.mu.Unlock()
		select {
		case <-wait:
		case <-ctx.Done():
			return none, ctx.Err()
		}
	}
}

// run computes without the lock and keeps what came out.
func (o *once[T]) run(ctx context.Context, compute func(context.Context) (T, error)) (val T, err error) {
	finished := false
	defer func() {
		o.mu.Lock()
		defer o.mu.Unlock()
		// A panic passes on to the caller; those who wait must not hang for it.
		if finished && !errors.Is(err, context.Canceled) && !errors.Is(err, context.DeadlineExceeded) {
			o.done, o.val, o.err = true, val, err
		}
		close(o.busy)
		o.busy = nil
	}()
	val, err = compute(ctx)
	finished = true
	return val, err
}

// peek is the answer if it stands already without failure.
func (o *once[T]) peek() (T, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.val, o.done && o.err == nil
}

// keep plants an answer known from an earlier revision.
func (o *once[T]) keep(val T) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.done, o.val, o.err = true, val, nil
}
