package size

import (
	"context"
	"fmt"
	"strings"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Days that a pick is held to: of a seed that no other question uses, so that a pick is not
// judged by the days that shaped the job. So many for shops up to so much work (study.Work),
// fewer beyond, none where even the fewest take too long.
const (
	days      = 8
	allWork   = 2_000
	fewest    = 2
	mostWork  = 24_000
	mostTimes = 4 // that days are worked through for one proposal
	seed      = 20_011
)

// worked is days of a study; nil where they tell nothing or take too long.
func (w *work) worked(ctx context.Context, s *study.Study) (*day.Answer, error) {
	work, err := s.Work(ctx)
	if err != nil || work > mostWork {
		return nil, err
	}
	ask := day.Ask{Seed: w.wish.Seed, Days: max(fewest, min(days, days*allWork/max(1, work)))}
	if ask.Seed == 0 {
		ask.Seed = seed
	}
	a, err := s.Day(ctx, ask)
	if err != nil || a.Untold != "" {
		return nil, err
	}
	return a, nil
}

// days holds a pick to the share of its time that each tool may go short. What goes short
// with the largest sizes on offer too is not for sizes to mend: that is told.
func (w *work) days(ctx context.Context, v *verdict) error {
	if w.timesWorked++; w.timesWorked > mostTimes {
		w.note(fmt.Sprintf("the chance of enough was worked through days %d times and not again", mostTimes))
		return nil
	}
	a, err := w.worked(ctx, v.study)
	if err != nil {
		return err
	}
	if a == nil {
		w.note("the chance of enough was not worked through days: they tell nothing here, or take too long")
		return nil
	}
	v.days = a
	rare := w.job.RuleRare().Value
	var beyond []string
	for _, t := range a.Tools {
		if t.Short <= rare {
			continue
		}
		best, err := w.shortAtBest(ctx, t.ID)
		if err != nil {
			return err
		}
		if best > float64(rare) {
			beyond = append(beyond, w.toolName(t.ID))
			continue
		}
		v.short = append(v.short, t.ID)
	}
	if len(beyond) > 0 {
		w.note("with the largest sizes too these go short more often than is planned for: " + strings.Join(beyond, "; ") + "; that is for the supply to mend")
	}
	return nil
}

// shortAtBest is the share that a tool goes short with the largest sizes on offer, in the
// same days.
func (w *work) shortAtBest(ctx context.Context, tool job.ID) (float64, error) {
	if w.bestDays == nil {
		a, err := w.worked(ctx, w.best)
		if err != nil || a == nil {
			return 1, err
		}
		w.bestDays = a
	}
	for _, t := range w.bestDays.Tools {
		if t.ID == tool {
			return float64(t.Short), nil
		}
	}
	return 0, nil
}

// mostShort is the most that any tool goes short in the days.
func (v *verdict) mostShort() *float64 {
	if v.days == nil {
		return nil
	}
	most := 0.0
	for _, t := range v.days.Tools {
		most = max(most, float64(t.Short))
	}
	return &most
}
