package start

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/plan"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// mostTries bounds how often a shop is sized anew with another compressor or other couplers.
const mostTries = 14

// tried is one way to have the shop, solved.
type tried struct {
	study *study.Study
	model *model.Model
	flow  *flow.Answer
	proof string // of lines and sizes
	notes []string
}

// search lays the lines once, and picks sizes for them with the compressor and the couplers
// at hand; with larger ones where no sizes do.
func (b *brief) search(ctx context.Context, room *draft, r *round, c stand, progress plan.Progress) (*tried, error) {
	l := b.ladders()
	z, days, times := b.begin(c, l), 0, 0
	var lines *plan.Proposal
	var best *tried // of the ways to lay lines that were sized: it lacks least room
	for n := 1; ; n++ {
		bare, err := b.build(room, r, c, l, z)
		if err != nil {
			return nil, err
		}
		s := study.Of(bare, b.shelf)
		if lines == nil {
			if lines, err = b.lines(ctx, s, nil, progress); err != nil {
				return nil, err
			}
		}
		laid, err := s.After(lines.Edit)
		if err != nil {
			return nil, fmt.Errorf("lines of the first plan: %w", err)
		}
		if n < mostTries && b.chosen {
			progress("choosing the compressor", 0, 0)
			m, other, err := b.other(ctx, laid, &days)
			if err != nil {
				return nil, err
			}
			if other {
				b.machine = m
				continue
			}
		}
		again, t, err := b.sized(ctx, laid, l, &z, n < mostTries, progress)
		if err != nil {
			return nil, err
		}
		if again {
			continue
		}
		t.proof = lines.Proof + "; for these lines, " + t.proof
		if best, again, err = looser(ctx, best, t); err != nil || !again {
			return best, err
		}
		if times++; times == plan.MostLaid {
			return best, nil
		}
		if lines, err = b.lines(ctx, s, t.study, progress); err != nil {
			return best, failed(err)
		}
	}
}

// failed is an error of laying lines anew: none where they cannot be laid so.
func failed(err error) error {
	if refused := (*job.Refusal)(nil); errors.As(err, &refused) {
		return nil
	}
	return err
}

// looser is that of two ways to have the shop of which lines lack less room; again
// says that lines are to be laid anew, for the sizes that were picked.
func looser(ctx context.Context, best, t *tried) (better *tried, again bool, err error) {
	now, err := plan.Amiss(ctx, t.study)
	if err != nil || best == nil || now == 0 {
		return t, now > 0, err
	}
	least, err := plan.Amiss(ctx, best.study)
	if now < least {
		return t, true, err
	}
	return best, false, err
}

// lines are the least lines to all outlets: along the walls, and across under the ceiling
// only where no other way leads there. In the sizes of stiff, where it is one, they give way.
func (b *brief) lines(ctx context.Context, s, stiff *study.Study, progress plan.Progress) (*plan.Proposal, error) {
	var refused *plan.Refused
	for _, over := range [][]string{nil, {route.Ceiling}} {
		all, err := plan.Propose(ctx, s, plan.Wish{Lines: true, First: true, Over: over, Stiff: stiff, System: unit.System(b.Units)}, progress)
		if err == nil {
			return &all[0], nil
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if !errors.As(err, &refused) {
			return nil, err
		}
	}
	return nil, &job.Refusal{Findings: refused.Findings}
}

// sized picks sizes. Where none do, again says that other couplers or another compressor
// are to be tried; with more false it takes the sizes that come nearest.
func (b *brief) sized(ctx context.Context, laid *study.Study, l *ladders, z *sizes, more bool, progress plan.Progress) (again bool, t *tried, err error) {
	wish := plan.Wish{Sizes: true, First: true, System: unit.System(b.Units)}
	all, err := plan.Propose(ctx, laid, wish, progress)
	var refused *plan.Refused
	switch {
	case err == nil:
		t, err = b.solved(ctx, &all[0])
		if err != nil || !more || !b.chosen || !t.supplyShort() {
			return false, t, err
		}
		m, other := b.better(t, 0)
		if other {
			b.machine = m
		}
		return other, t, nil
	case !errors.As(err, &refused):
		return false, nil, err
	case more && z.grade < len(l.grades)-1:
		z.grade++
		return true, nil, nil
	}
	flows, err := b.solved(ctx, &plan.Proposal{After: laid})
	if err != nil {
		return false, nil, err
	}
	if b.chosen && more {
		if m, ok := b.better(flows, b.machine.CutIn); ok {
			b.machine = m
			return true, nil, nil
		}
	}
	wish.AsFar = true
	if all, err = plan.Propose(ctx, laid, wish, progress); errors.As(err, &refused) {
		return false, flows, nil // there is nothing to size by: no tool is used anywhere
	}
	if err != nil {
		return false, nil, err
	}
	t, err = b.solved(ctx, &all[0])
	return false, t, err
}

func (b *brief) solved(ctx context.Context, p *plan.Proposal) (*tried, error) {
	t := &tried{study: p.After, proof: p.Proof, notes: p.Notes}
	var err error
	if t.model, err = t.study.Model(ctx); err != nil {
		return nil, err
	}
	t.flow, err = t.study.Flow(ctx)
	return t, err
}

// other is a class of compressor that does, where the one in use does not: by what sets of
// tools take, and by a few working days.
func (b *brief) other(ctx context.Context, laid *study.Study, days *int) (catalog.Machine, bool, error) {
	t, err := b.solved(ctx, &plan.Proposal{After: laid})
	if err != nil {
		return b.machine, false, err
	}
	if t.supplyShort() {
		if m, ok := b.better(t, 0); ok {
			return m, true, nil
		}
	}
	if *days >= mostDays {
		return b.machine, false, nil
	}
	return b.steadier(ctx, t, days)
}

// A plan is wanted at once, and working days take most of its time: so many of its builds are
// worked through, of shops up to so much work (study.Work).
const (
	mostDays = 2
	mostWork = 10_000
)

// steadier is the next class where a few working days are too much for the one in use: it never
// catches up, or its receiver falls below its cut-in and a tool goes short for more than the job
// plans for. Where the receiver holds, who goes short does so in lines that have no sizes yet, and
// a larger compressor would not mend it. What the tools take in the mean tells the plainest cases
// without any day.
func (b *brief) steadier(ctx context.Context, t *tried, days *int) (catalog.Machine, bool, error) {
	m, more := b.next()
	if !more {
		return m, false, nil
	}
	d, err := t.study.Demand(ctx)
	if err != nil {
		return m, false, err
	}
	j := t.study.Job()
	if float64(d.Mean) > (1-float64(j.RuleLeak().Value))*b.machine.FreeAir.Value {
		return m, true, nil
	}
	work, err := t.study.Work(ctx)
	if err != nil || work > mostWork {
		return m, false, err
	}
	*days++
	a, err := t.study.Few(ctx)
	if err != nil || a.Untold != "" {
		return m, false, err
	}
	rare := j.RuleRare().Value
	holds := a.Lowest >= b.cutIn()-1 // Pa, as good as not below
	enough := a.Full && (holds || !slices.ContainsFunc(a.Tools, func(x day.Tool) bool { return x.Short > rare }))
	return m, !enough, nil
}

// supplyShort says whether some set takes more than is delivered for longer than
// the receiver bridges it.
func (t *tried) supplyShort() bool {
	burst := map[job.ID]unit.Duration{}
	for _, tool := range t.model.Tools() {
		burst[tool.ID] = tool.Burst
	}
	for i := range t.flow.Sets {
		s := &t.flow.Sets[i]
		if s.Supply.Short <= 0 {
			continue
		}
		longest := unit.Duration(0)
		for _, u := range s.Running {
			longest = max(longest, burst[u.Tool])
		}
		if s.Supply.Rides == nil || *s.Supply.Rides < longest {
			return true
		}
	}
	return false
}
