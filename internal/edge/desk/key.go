package desk

import (
	"errors"
	"strings"

	"dropleg/internal/shop/job"
)

// lastKeys is among how many of the last steps one that is sent again is known. A
// page sends a step again before it sends the next, so that what others do while its
// line is broken is all that can come between.
const lastKeys = 256

// longestKey is room for any usual way to write sixteen random bytes.
const longestKey = 64

// ErrKey refuses a key that cannot be one.
var ErrKey = errors.New("the key of a step is to be at most 64 letters of a to z, digits, - and _")

// checkKey holds keys to what is short and can be written anywhere; "" is none.
func checkKey(key string) error {
	strange := func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_')
	}
	if len(key) > longestKey || strings.ContainsFunc(key, strange) {
		return ErrKey
	}
	return nil
}

// Took says whether one of the last steps was sent under a key.
func (w *Work) Took(key string) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.sent(key) != nil
}

// sent is the one of the last steps that was sent under a key, nil for none. w.mu
// is held.
func (w *Work) sent(key string) *entry {
	if key == "" {
		return nil
	}
	last := w.log.list[max(len(w.log.list)-lastKeys, 0):]
	for i := len(last) - 1; i >= 0; i-- {
		if last[i].Key == key {
			return last[i]
		}
	}
	return nil
}

// took tells a step that was taken, and the job as it is now: others may have gone
// on since.
func (w *Work) took(e *entry, plan job.ID) (Done, error) {
	now, err := w.Now(plan)
	if err != nil { // the step, or one since, took the alternative away
		now, err = w.Now("")
	}
	done := Done{Now: now, Step: e.Revision, Words: e.Words, Merged: e.Merged}
	for _, id := range e.Made {
		done.Made = append(done.Made, job.ID(id))
	}
	return done, err
}
