package cure

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Effort of the pairs of one tool: pairs solved for its worst moment, pairs given.
const (
	mostJoined = 16
	mostTold   = 4
)

// Pairs finds for each tool that is short in its worst moment the changes that cure it two
// by two, though neither does alone. It solves many more networks than For: it is asked for
// by itself, not with every look at a design.
func Pairs(ctx context.Context, s *study.Study, system unit.System) (map[job.ID][]job.Cure, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	f, err := s.Flow(ctx)
	if err != nil {
		return nil, err
	}
	out := map[job.ID][]job.Cure{}
	for i := range f.Tools {
		w := &f.Tools[i]
		margin := float64(s.Job().RuleMargin().Value)
		if w.Set < 0 || !w.Known || float64(w.Margin) >= margin {
			continue
		}
		tools := f.Sets[w.Set].CutIn.Tools
		k := slices.IndexFunc(tools, func(t flow.Tool) bool { return t.Tool == w.Tool && t.Outlet == w.Outlet })
		if k < 0 {
			continue
		}
		cures, err := NewBench(s, m, f, margin, system).two(ctx, w.Set, &tools[k])
		if err != nil {
			return nil, err
		}
		if len(cures) > 0 {
			out[w.Tool] = cures
		}
	}
	return out, nil
}

// two joins all changes that help a tool but do not cure it, the cheapest pairs first, and
// gives those that cure it and make nobody short.
func (b *Bench) two(ctx context.Context, set int, got *flow.Tool) ([]job.Cure, error) {
	lack := float64(got.Least) + b.margin - float64(got.Pressure)
	if lack <= 0 || len(got.Path) == 0 {
		return nil, nil
	}
	parts, err := b.partial(ctx, set, got, lack)
	if err != nil {
		return nil, err
	}
	all := joins(parts, lack)
	for _, p := range all {
		if err := b.solve(ctx, set, got, lack, p); err != nil {
			return nil, err
		}
	}
	all = slices.DeleteFunc(all, func(p *proposal) bool { return !p.cures })
	rankProposals(all)
	kept, err := b.verified(ctx, all, mostTold)
	if err != nil {
		return nil, err
	}
	var out []job.Cure
	for _, p := range kept {
		gain := p.gain
		out = append(out, job.Cure{Words: p.words, Edits: forms(p.edits), GainPa: &gain, Price: p.price, Cures: true, Verified: true})
	}
	return out, nil
}

// partial solves every single change for the tool's moment and gives those that help it
// without curing it.
func (b *Bench) partial(ctx context.Context, set int, got *flow.Tool, lack float64) ([]*proposal, error) {
	var out []*proposal
	under := float64(got.Path[0].In) <= float64(got.Least)+b.margin
	for _, p := range b.proposals(got, lack, under) {
		if err := b.solve(ctx, set, got, lack, p); err != nil {
			return nil, err
		}
		if !p.cures && p.gain > harmless {
			out = append(out, p)
		}
	}
	return out, nil
}

// joins lists the pairs that may cure by their gains, which help each other or hinder but
// little: the cheapest first where all have prices, else those that give most.
func joins(parts []*proposal, lack float64) []*proposal {
	var all []*proposal
	priced := true
	for i, x := range parts {
		for _, y := range parts[i+1:] {
			if x.place == y.place || x.gain+y.gain < 0.8*lack {
				continue
			}
			p := joined(x, y)
			all = append(all, p)
			priced = priced && p.price != nil
		}
	}
	slices.SortStableFunc(all, func(x, y *proposal) int {
		if priced {
			return cmp.Compare(*x.price, *y.price)
		}
		return cmp.Compare(y.guess, x.guess)
	})
	return all[:min(len(all), mostJoined)]
}
