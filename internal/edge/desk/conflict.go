package desk

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"dropleg/internal/shop/job"
)

// Conflict refuses an edit because somebody else has changed the same since the
// revision that it was made on.
type Conflict struct {
	By       string // who
	Words    string // what they did
	When     time.Time
	Revision int
	Things   []job.ID     // that both change
	Refusal  *job.Refusal // why the edit does not fit any more, where that is how it came out
}

// Error tells it in a sentence.
func (c *Conflict) Error() string {
	who := c.By
	if who == "" {
		who = "somebody else"
	}
	return fmt.Sprintf("%s has changed the same meanwhile: %s", who, c.Words)
}

// clashOf is the conflict with the last of the others' steps that writes what an
// edit with these touches writes; nil for none.
func clashOf(others []*entry, touches []job.Touch) *Conflict {
	for _, e := range slices.Backward(others) {
		if theirs := e.written(); job.Overlap(theirs, touches) {
			c := conflictWith(e)
			for _, t := range touches {
				if job.Overlap(theirs, []job.Touch{t}) {
					c.add(t.ID)
				}
			}
			return c
		}
	}
	return nil
}

// blame turns a refusal into a conflict where another's step changed a thing that
// the refusal or the edit is about, so that it is told whose doing it was.
func blame(others []*entry, err error, touches []job.Touch) error {
	var refusal *job.Refusal
	if len(others) == 0 || !errors.As(err, &refusal) {
		return err
	}
	about := map[job.ID]bool{}
	for _, f := range refusal.Findings {
		for _, id := range f.Where {
			about[id] = true
		}
	}
	for _, t := range touches {
		about[t.ID] = true
	}
	for _, e := range slices.Backward(others) {
		c := conflictWith(e)
		for _, t := range e.written() {
			if about[t.ID] {
				c.add(t.ID)
			}
		}
		if c.Things != nil || e.whole() {
			c.Refusal = refusal
			return c
		}
	}
	return err
}

func conflictWith(e *entry) *Conflict {
	return &Conflict{By: e.By, Words: e.Words, When: e.When, Revision: e.Revision}
}

func (c *Conflict) add(id job.ID) {
	if id != "" && !slices.Contains(c.Things, id) {
		c.Things = append(c.Things, id)
	}
}
