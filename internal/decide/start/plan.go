package start

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/decide/plan"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Of makes a whole first job: lines are laid, sizes picked, parts counted. Progress, where
// it is not nil, hears what is being done. The error is a *job.Refusal that tells all that
// stands in the way, or that of ctx.
func Of(ctx context.Context, a Answers, shelf *catalog.Catalog, progress plan.Progress) (*Plan, error) {
	return of(ctx, a, shelf, "", progress)
}

// Existing is Of for a shop that stands: all that is drawn is there already.
func Existing(ctx context.Context, a Answers, shelf *catalog.Catalog, progress plan.Progress) (*Plan, error) {
	return of(ctx, a, shelf, "existing", progress)
}

// Empty is a job with a room and nothing in it.
func Empty(title, units string, room Room, shelf *catalog.Catalog) (*Plan, error) {
	b := complete(Answers{Title: title, Units: units, Room: room, Spread: 1}, shelf)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	d, _ := b.room()
	if err := b.refusal(); err != nil {
		return nil, err
	}
	return &Plan{Job: d.job, Assumptions: []Assumption{}, Facts: []string{}}, nil
}

func of(ctx context.Context, a Answers, shelf *catalog.Catalog, state string, progress plan.Progress) (*Plan, error) {
	if progress == nil {
		progress = func(string, int, int) {}
	}
	b := complete(a, shelf)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	d, r := b.room()
	if d == nil {
		return nil, b.refusal()
	}
	seats := b.seats(r)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	c := b.stands(r, seats)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	t, err := b.search(ctx, d, r, c, progress)
	if refused := (*job.Refusal)(nil); errors.As(err, &refused) { // what the stock or the room does not allow
		b.take("room", err)
		return nil, b.refusal()
	}
	if err != nil {
		return nil, err
	}
	progress("counting the parts", 0, 0)
	b.tell(t, r, c)
	facts, err := b.facts(ctx, t)
	if err != nil {
		return nil, err
	}
	j := *t.study.Job()
	if state != "" {
		inState(&j, state)
	}
	j.Note = b.note(state)
	return &Plan{Job: &j, Assumptions: b.said, Facts: facts}, nil
}

// note is what the job says of itself.
func (b *brief) note(state string) string {
	head := "A first plan from five answers; what was assumed:"
	if state != "" {
		head = "An installation that stands, drawn from five answers; what was assumed:"
	}
	for _, s := range b.said {
		head += "\n- " + s.Words
	}
	return head
}

// inState gives points, and what runs between them, a state; all that is drawn where none are named.
func inState(j *job.Job, state string, only ...job.ID) {
	of := func(id job.ID) bool { return len(only) == 0 || slices.Contains(only, id) }
	j.Net.Points, j.Net.Runs = slices.Clone(j.Net.Points), slices.Clone(j.Net.Runs)
	for i := range j.Net.Points {
		if p := &j.Net.Points[i]; of(p.ID) {
			p.State = state
		}
	}
	for i := range j.Net.Runs {
		if r := &j.Net.Runs[i]; of(r.From.Point) && of(r.To.Point) {
			r.State = state
		}
	}
}

func plural(n int, word string) string {
	if n == 1 {
		return "one " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// trimmed is a text without the stop at its end.
func trimmed(s string) string { return strings.TrimSuffix(strings.TrimSpace(s), ".") }
