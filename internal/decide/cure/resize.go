package cure

import (
	"context"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Path is a tool's way in a set after the edits; nil where the set has no
// answer or the tool is not there.
func (t *Trial) Path(ctx context.Context, set int, use job.InUse) ([]model.Step, error) {
	r, err := t.Set(ctx, set)
	if err != nil {
		return nil, err
	}
	pair, ok := t.pairs[use]
	if !ok || !r.Solved {
		return nil, nil
	}
	return t.model.Path(r, pair), nil
}

// Resized proposes the first of some wider sizes of a stretch that meets a
// limit once it is solved, and makes no tool short. Meets also gives what the
// change gains, Pa; 0 where that is no matter of pressure. At most two sizes
// are tried: guess says which are hopeful.
func (b *Bench) Resized(
	ctx context.Context, s Stretch, guess func(bore float64) bool, meets func(*Trial) (gain float64, ok bool, err error),
) (job.Cure, bool, error) {
	run := s.Runs[0]
	stock, ok := b.shelf.Stock(run.Stock)
	if !ok {
		return job.Cure{}, false, nil
	}
	tried := 0
	for _, z := range Wider(stock, run.Size) {
		if !guess(float64(z.Bore)) || tried == 2 {
			continue
		}
		tried++
		edits := s.Resize(b.idx, z.Size)
		t, err := b.Try(ctx, edits...)
		if refused(err) {
			continue
		}
		if err != nil {
			return job.Cure{}, false, err
		}
		gain, ok, err := meets(t)
		if err != nil {
			return job.Cure{}, false, err
		}
		if !ok {
			continue
		}
		harmed, err := t.Harmed(ctx, everywhere)
		if err != nil || len(harmed) > 0 {
			return job.Cure{}, false, err
		}
		c := job.Cure{
			Words: sized(z.Size) + " " + role(run) + " instead of " + sized(run.Size) + ", " + b.long(s.Length(b.idx)),
			Edits: forms(edits), Price: b.priceOf(amount{stock.Stock + " " + z.Size, s.Length(b.idx), 0}), Cures: true, Verified: true,
		}
		if gain > 0 {
			c.GainPa = &gain
		}
		return c, true, nil
	}
	return job.Cure{}, false, nil
}
