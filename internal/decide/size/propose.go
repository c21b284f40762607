package size

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"dropleg/engine/unit"
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
	wishes := []Wish{wish}
	if wish.Alternatives {
		wishes = append(wishes, more(wish, s.Job())...)
	}
	var out []Proposal
	for i, one := range wishes {
		progress(i, len(wishes))
		p, err := proposeOne(ctx, s, one, progress)
		if _, ok := IsNone(err); ok && i > 0 {
			continue // more in hand than there is
		}
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(out, func(o Proposal) bool { return sameEdits(o.Edits, p.Edits) }) {
			out = append(out, *p)
		}
	}
	progress(len(wishes), len(wishes))
	return out, nil
}

// reserve is what the alternatives want more at each tool: a tenth of a bar and a quarter.
var reserves = []unit.PressureDiff{10e3, 25e3}

// more are the wishes with more in hand, least first.
func more(wish Wish, j *job.Job) []Wish {
	var out []Wish
	for _, r := range reserves {
		one := wish
		one.Reserve += r
		one.Steps = false
		out = append(out, one)
	}
	grown := wish
	grown.Growth, grown.Steps = float64(j.RuleGrowth().Value), false
	return append(out, grown)
}

func sameEdits(a, b []job.EditForm) bool {
	return slices.EqualFunc(a, b, func(x, y job.EditForm) bool { return x.Verb == y.Verb && slices.Equal(x.Fields, y.Fields) })
}

// proposeOne answers one wish, from the stock that makes it cheapest.
func proposeOne(ctx context.Context, s *study.Study, wish Wish, progress func(int, int)) (*Proposal, error) {
	var best *Proposal
	var none error
	for _, stock := range stocks(s, wish) {
		p, err := proposeOf(ctx, s, wish, stock, progress)
		if _, ok := IsNone(err); ok {
			none = err
			continue
		}
		if err != nil {
			return nil, err
		}
		// Metres times bore of one stock are not the money of another.
		if best == nil || p.Priced && !best.Priced || p.Priced == best.Priced && p.Price < best.Price {
			best = p
		}
	}
	if best == nil {
		return nil, none
	}
	return best, nil
}

// proposeOf answers one wish of one stock: "" leaves each line its own.
func proposeOf(ctx context.Context, s *study.Study, wish Wish, stock string, progress func(int, int)) (*Proposal, error) {
	base, first, err := restocked(s, wish, stock)
	if err != nil {
		return nil, err
	}
	w, err := newWork(ctx, base, wish)
	if err != nil {
		return nil, err
	}
	p, v, err := w.propose(ctx)
	if err != nil {
		return nil, err
	}
	if len(first) > 0 {
		p.restock(w, stock, first)
	}
	if wish.Steps {
		p.Steps, err = w.steps(ctx, v, progress)
	}
	return p, err
}

// propose picks, verifies and tightens until it holds.
func (w *work) propose(ctx context.Context) (*Proposal, *verdict, error) {
	bound := 0.0
	var last *verdict
	for round := 1; ; round++ {
		f := w.frame()
		if w.unpriced != nil {
			return nil, nil, w.unpriced
		}
		if round > 1 { // the bound stands: what is left is to find a pick that holds
			f.problem.Effort = effort / 8
		}
		a, err := w.solve(ctx, f)
		var none *tree.NoneError
		switch {
		case errors.As(err, &none) && last != nil:
			return w.wayOut(ctx, f, last, bound, round)
		case err != nil:
			return nil, nil, w.unpicked(err)
		}
		if round == 1 {
			bound = a.Bound
		}
		a.Bound, a.Proven = bound, a.Price <= bound*(1+1e-12)
		picks := f.picks(a.Chosen)
		after, err := w.after(picks)
		if err != nil {
			return nil, nil, err
		}
		v, err := w.verify(ctx, after, picks)
		if err != nil {
			return nil, nil, err
		}
		switch {
		case !v.holds():
		case a.Price > bound*(1+worthPolish):
			v, err = w.polish(ctx, f, v)
		default:
			err = w.days(ctx, v)
		}
		if err != nil {
			return nil, nil, err
		}
		if v.holds() || round == mostRounds {
			p, err := w.proposal(ctx, bound, v, round)
			return p, v, err
		}
		last = v
		w.tighten(v)
	}
}

// wayOut is a pick where what was tightened asks for more than there is: the last one where
// only its days were not enough, for no size makes short rarer; else the largest sizes,
// which do, made smaller as far as that holds.
func (w *work) wayOut(ctx context.Context, f *frame, last *verdict, bound float64, round int) (*Proposal, *verdict, error) {
	v := last
	if len(last.short) == 0 && w.top != nil {
		var err error
		if v, err = w.polish(ctx, f, w.top); err != nil {
			return nil, nil, err
		}
		w.note("what verifying found asked for more than there is: picked down from the largest sizes instead")
	}
	p, err := w.proposal(ctx, bound, v, round)
	return p, v, err
}

// unpicked is why nothing was picked.
func (w *work) unpicked(err error) error {
	var none *tree.NoneError
	if errors.As(err, &none) {
		return w.none(none)
	}
	if _, ok := IsNone(err); ok {
		return err
	}
	return fmt.Errorf("picking sizes: %w", err)
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
	for _, m := range w.meets {
		if e := w.step(m, picks); e != nil {
			out = append(out, e)
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

// solve picks within the time that there is.
func (w *work) solve(ctx context.Context, f *frame) (*tree.Answer, error) {
	within, stop := ctx, func() {}
	if w.wish.Limit > 0 {
		within, stop = context.WithTimeout(ctx, w.wish.Limit)
	}
	defer stop()
	a, err := f.problem.Solve(within)
	if err == nil {
		a.Price, a.Bound = w.total(f.picks(a.Chosen)), a.Bound+f.fixed
	}
	if errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil {
		return nil, &NoneError{[]job.Finding{{
			Code: "size-no-time", Severity: job.Fault, Title: fmt.Sprintf("No selection was found within %v.", w.wish.Limit),
			Why: "Give it longer, or let fewer sizes change.",
		}}}
	}
	return a, err
}
