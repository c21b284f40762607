package size

import (
	"context"
	"errors"
	"fmt"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/size/tree"
	"dropleg/internal/shop/job"
)

// mostRounds bounds how often a pick is tightened and made anew.
const mostRounds = 8

// Propose picks sizes: the cheapest first, then, where alternatives are wished for, with
// more in hand. Progress hears how many picks are done, of how many. The error is a
// *NoneError where no size does it, or that of ctx.
func Propose(ctx context.Context, s *study.Study, wish Wish, progress func(done, total int)) ([]Proposal, error) {
	if progress == nil {
		progress = func(int, int) {}
	}
	progress(0, 1)
	w, err := newWork(ctx, s, wish)
	if err != nil {
		return nil, err
	}
	p, err := w.propose(ctx)
	if err != nil {
		return nil, err
	}
	progress(1, 1)
	return []Proposal{*p}, nil
}

// propose picks, verifies and tightens until it holds.
func (w *work) propose(ctx context.Context) (*Proposal, error) {
	bound := 0.0
	for round := 1; ; round++ {
		f := w.frame()
		a, err := f.problem.Solve(ctx)
		var none *tree.NoneError
		if errors.As(err, &none) {
			return nil, w.none(none)
		}
		if err != nil {
			return nil, fmt.Errorf("picking sizes: %w", err)
		}
		if round == 1 {
			bound = a.Bound
		}
		a.Bound, a.Proven = bound, a.Price <= bound*(1+1e-12)
		picks := f.picks(a.Chosen)
		after, err := w.after(picks)
		if err != nil {
			return nil, err
		}
		v, err := w.verify(ctx, after, picks)
		if err != nil {
			return nil, err
		}
		if v.holds() || round == mostRounds {
			return w.proposal(ctx, f, a, picks, v, round)
		}
		w.tighten(v)
	}
}

const title = "the cheapest sizes that do"

// edits are what a pick changes.
func (w *work) edits(picks []int) []job.Edit {
	var out []job.Edit
	for i, c := range w.choices {
		if picks[i] != c.now {
			out = append(out, c.options[picks[i]].edits...)
		}
	}
	return out
}

// after is the study with a pick.
func (w *work) after(picks []int) (*study.Study, error) {
	edits := w.edits(picks)
	if len(edits) == 0 {
		return w.study, nil
	}
	after, err := w.study.After(job.AllOf(title, edits...))
	if err != nil {
		return nil, fmt.Errorf("sizes as picked: %w", err)
	}
	return after, nil
}
