package start

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Of makes a whole first job. The error is a *job.Refusal that tells all that
// stands in the way, or that of ctx.
func Of(ctx context.Context, a Answers, shelf *catalog.Catalog) (*Plan, error) {
	return of(ctx, a, shelf, "")
}

// Existing is Of for a shop that stands: all that is drawn is there already.
func Existing(ctx context.Context, a Answers, shelf *catalog.Catalog) (*Plan, error) {
	return of(ctx, a, shelf, "existing")
}

// Empty is a job with a room and nothing in it.
func Empty(title, units string, room Room, shelf *catalog.Catalog) (*Plan, error) {
	b := complete(Answers{Title: title, Units: units, Room: room, Spread: 1}, shelf)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	b.said = nil
	d, _ := b.room()
	if err := b.refusal(); err != nil {
		return nil, err
	}
	return &Plan{Job: d.job, Assumptions: []string{}}, nil
}

func of(ctx context.Context, a Answers, shelf *catalog.Catalog, state string) (*Plan, error) {
	b := complete(a, shelf)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	d, r := b.room()
	if d == nil {
		return nil, b.refusal()
	}
	d.state = state
	seats := b.seats(r)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	c, _ := b.route(r, seats)
	if err := b.refusal(); err != nil {
		return nil, err
	}
	t, err := b.search(ctx, d, r, c)
	if refused := (*job.Refusal)(nil); errors.As(err, &refused) { // what the stock or the room does not allow
		b.take("room", err)
		return nil, b.refusal()
	}
	if err != nil {
		return nil, err
	}
	b.tell(t, r, c)
	t.job.Note = b.note(state)
	return &Plan{Job: t.job, Assumptions: b.said}, nil
}

// tell adds what was assumed on the way.
func (b *brief) tell(t *tried, r *round, c route) {
	p := &b.Compressor
	switch {
	case b.chosen:
		b.assume("No compressor was named: this plan takes the smallest class that does, %s.", b.machine.Words)
	case p.FreeAir == nil:
		b.assume("The compressor delivers what its class does (%s); the plate counts, read it.", b.machine.Words)
	case p.CutIn == nil || p.CutOut == nil:
		b.assume("The compressor cuts in at %s and out at %s: read the pressure switch.", b.pressure(b.cutIn()), b.pressure(b.cutOut()))
	}
	if p.Volume == nil {
		b.assume("The receiver holds %s, usual for the class.", unit.System(b.Units).Text(unit.KindVolume, float64(b.volume()), unit.Env{}))
	}
	for i := range t.job.Net.Points {
		if part := &t.job.Net.Points[i].Part; part.Volume != nil && part.Rating != nil {
			b.assume("The receiver is stamped for %s or more: read the plate before anything is set.", b.pressure(*part.Rating))
		}
	}
	b.assume("The main hangs %s over the floor at its beginning and falls 1 in %.0f to a drain at its end.", b.long(c.high), 1/c.fall)
	if c.fall < fall-1e-9 {
		b.assume("The room is too low for a fall of 1 in 100 over this length.")
	}
	if c.under > 0 {
		b.assume("The main passes %s lower than the top of the opening: it has to be led over or round there.", plural(c.under, "door"))
	}
	for _, s := range c.seats {
		if off := r.gap(s.t, s.wanted); off > 0.05 && len(b.Places) > 0 {
			b.assume("%s stands %s from where it was wanted, clear of doors, corners, the compressor and its neighbours.", s.name, b.long(off))
		}
		if s.set > 0 {
			b.assume("%s has a regulator set to %s for what is used there.", s.name, b.pressure(s.set))
		}
	}
	b.assume("Each outlet has a hose of %s and sits %s over the floor.", b.long(float64(b.hoseLength())), b.long(outletUp))
	for i, row := range b.tools {
		if row.Least >= b.cutIn() {
			b.assume("%s wants %s, and the compressor cuts in at %s: it waits for the receiver to fill.", titled(b.Tools[i].word(row)), b.pressure(row.Least), b.pressure(b.cutIn()))
		}
	}
	if b.Budget != "" {
		b.assume("Budget: %s.", strings.TrimSuffix(strings.TrimSpace(b.Budget), "."))
	}
}

func (t Tool) word(row catalog.Tool) string {
	if t.Name != "" {
		return t.Name
	}
	return row.Words
}

// gap is the distance of two places on the round, the shorter way.
func (r *round) gap(a, b float64) float64 {
	d := r.wrap(a - b)
	return min(d, r.total-d)
}

// note is what the job says of itself.
func (b *brief) note(state string) string {
	head := "A first plan from five answers; what was assumed:"
	if state != "" {
		head = "An installation that stands, drawn from five answers; what was assumed:"
	}
	return head + "\n- " + strings.Join(b.said, "\n- ")
}

func plural(n int, word string) string {
	if n == 1 {
		return "one " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
