package plan

import (
	"context"
	"errors"
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/route"
	"dropleg/internal/decide/size"
	"dropleg/internal/shop/job"
)

// Wish is what is asked for.
type Wish struct {
	Lines, Sizes bool
	Keep         bool         // what is installed stays as it is
	Only         []job.ID     // what may change its size; none: everything
	Growth       float64      // a share more of all flows
	Over         []string     // surfaces beside the walls (package route)
	First        bool         // the first proposal alone: neither rings nor more in hand
	AsFar        bool         // where no size does it, what comes nearest
	Stiff        *study.Study // the same lines, sized: they are laid so that in these sizes they give way where they grow
	System       unit.System
}

// Proposal is one way to have it.
type Proposal struct {
	Name    string
	Words   string
	Edit    job.Edit
	After   *study.Study // the study asked of, where nothing changes
	Proof   string
	Changes []Change
	Notes   []string
}

// Change is one thing that comes out otherwise.
type Change struct {
	IDs             []job.ID
	Words, From, To string
}

// Refused is why there is nothing to propose.
type Refused struct{ Findings []job.Finding }

func (e *Refused) Error() string {
	return (&job.Refusal{Findings: e.Findings}).Error()
}

// Progress hears what is being done, and how far it is where that is known.
type Progress func(doing string, done, total int)

// Propose makes proposals, the cheapest first. The error is a *Refused, or that of ctx.
func Propose(ctx context.Context, s *study.Study, wish Wish, progress Progress) ([]Proposal, error) {
	out, err := propose(ctx, s, wish, progress)
	return out, told(err)
}

// told is an error as it is handed on: a *Refused where lines cannot be laid or no sizes do.
func told(err error) error {
	var none *size.NoneError
	var refusal *job.Refusal
	switch {
	case errors.As(err, &none):
		return &Refused{none.Findings}
	case errors.As(err, &refusal):
		return &Refused{refusal.Findings}
	}
	return err
}

func propose(ctx context.Context, s *study.Study, wish Wish, progress Progress) ([]Proposal, error) {
	switch {
	case !wish.Lines:
		return sized(ctx, s, wish, !wish.First, progress)
	case !wish.Sizes:
		return laid(ctx, s, wish, progress)
	}
	out, err := laidAndSized(ctx, s, wish, progress)
	if err != nil {
		return nil, err
	}
	return looser(ctx, out, func(stiff *study.Study) ([]Proposal, error) {
		again := wish
		again.Stiff = stiff
		return laidAndSized(ctx, s, again, progress)
	})
}

// laidAndSized are proposals for where lines run, each with those for its sizes.
func laidAndSized(ctx context.Context, s *study.Study, wish Wish, progress Progress) ([]Proposal, error) {
	laid, err := laid(ctx, s, wish, progress)
	if err != nil {
		return nil, err
	}
	var out []Proposal
	for i := range laid {
		// What was just laid is nobody's to keep: all of it may have another size.
		again := wish
		again.Only = nil
		list, err := sized(ctx, laid[i].After, again, i == 0 && !wish.First, progress)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", laid[i].Name, err)
		}
		for k := range list {
			out = append(out, both(s, &laid[i], &list[k]))
		}
	}
	return out, nil
}

// both is a proposal for lines and then for their sizes.
func both(s *study.Study, lines, sizes *Proposal) Proposal {
	p := *lines
	p.Name = lines.Name + ", " + sizes.Name
	p.Proof = lines.Proof + "; for these lines, " + sizes.Proof
	p.Words = lines.Words + " " + sizes.Words
	p.Notes = append(append([]string{}, lines.Notes...), sizes.Notes...)
	if sizes.After != lines.After {
		p.Edit, p.After = lines.Edit, sizes.After
		if lines.After == s {
			p.Edit = sizes.Edit
		} else {
			p.Edit = job.AllOf("lines and sizes as proposed", lines.Edit, sizes.Edit)
		}
		p.Changes = append(append([]Change{}, lines.Changes...), sizes.Changes...)
	}
	return p
}

// laid are proposals for where lines run.
func laid(ctx context.Context, s *study.Study, wish Wish, progress Progress) ([]Proposal, error) {
	clear := "all"
	if wish.Keep {
		clear = "planned"
	}
	progress("laying lines", 0, 0)
	found, err := route.Propose(ctx, s, route.Wish{Clear: clear, Ring: !wish.First, Over: wish.Over, Sized: wish.Stiff}, func(best, bound float64) {
		if best > 0 && bound > 0 {
			progress("laying lines", int(100*bound/best), 100)
		}
	})
	if err != nil {
		return nil, err
	}
	var out []Proposal
	for i := range found {
		p := &found[i]
		if p.Figures.Gain != nil && !p.Pays {
			continue // a ring that brings nothing is no alternative
		}
		after, err := s.After(p.Edit)
		if err != nil {
			return nil, fmt.Errorf("lines as proposed: %w", err)
		}
		proof := "no way of laying it over these places costs less"
		if !p.Proven {
			proof = fmt.Sprintf("another way could save %.1f %% at most", 100*p.Gap)
		}
		out = append(out, Proposal{Name: p.Title, Edit: p.Edit, After: after, Proof: proof, Notes: p.Words})
	}
	return out, nil
}

// sized are proposals for the sizes of what is drawn; the cheapest alone, unless more are wanted.
func sized(ctx context.Context, s *study.Study, wish Wish, more bool, progress Progress) ([]Proposal, error) {
	found, err := size.Propose(ctx, s, size.Wish{
		Keep: wish.Keep, Only: wish.Only, Growth: wish.Growth, AsFar: wish.AsFar, Alternatives: more, System: wish.System,
	}, func(done, total int) { progress("picking sizes", done, total) })
	if err != nil {
		return nil, err
	}
	var out []Proposal
	for i := range found {
		p := &found[i]
		one := Proposal{Name: p.Name, Words: p.Words, Edit: p.Edit, After: s, Proof: sizeProof(p), Notes: p.Notes}
		for _, c := range p.Changes {
			one.Changes = append(one.Changes, Change{c.IDs, c.Words, c.From, c.To})
		}
		if len(p.Changes) > 0 {
			if one.After, err = s.After(p.Edit); err != nil {
				return nil, fmt.Errorf("sizes as proposed: %w", err)
			}
		}
		out = append(out, one)
	}
	return out, nil
}

// sizeProof says what is known of the price.
func sizeProof(p *size.Proposal) string {
	if p.Proven {
		return "no selection of sizes costs less"
	}
	return fmt.Sprintf("a cheaper selection of sizes could save %.1f %% at most", 100*p.Gap())
}
