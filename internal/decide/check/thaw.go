package check

import (
	"context"
	"slices"

	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

// reportThaw reports what may freeze in a zone with what keeps it open: each is applied,
// and the cold season is followed and judged again.
func (c *Case) reportThaw(ctx context.Context, z *frozen, f job.Finding) error {
	thawed := func(t *cure.Trial) (bool, error) {
		after, err := newCase(ctx, t.Study(), c.system)
		if err != nil {
			return false, err
		}
		a, err := after.wet(ctx)
		if err != nil {
			return false, err
		}
		return !slices.ContainsFunc(after.frozen(coldSeason(a)), func(x frozen) bool { return x.zone.ID == z.zone.ID }), nil
	}
	var err error
	f.Cures, err = c.bench.ThawBy(ctx, z.zone, c.upstream(z.runs), thawed)
	if err != nil {
		return err
	}
	c.report(f)
	return nil
}

// upstream is the first of some lines on the way of the air: one that begins where none of
// the others ends; nil where they go round.
func (c *Case) upstream(runs []*job.Run) *job.Run {
	for _, r := range runs {
		if !slices.ContainsFunc(runs, func(o *job.Run) bool { return o != r && (o.To.Point == r.From.Point || o.From.Point == r.From.Point) }) {
			return r
		}
	}
	return nil
}
