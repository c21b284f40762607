package extend

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/plan"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/job"
)

// Proposal is one way to have what is to be added.
type Proposal struct {
	Name  string
	Words string
	Edit  job.Edit
	After *study.Study
	Proof string // of lines and sizes
	Notes []string
	// Outlet is the new one; "" where only a compressor comes.
	Outlet job.ID
	Lines  []job.ID // that are laid
	Grows  []Grow
	Taken  []job.Cure    // cures that were taken beside the sizes, in their order
	Open   []job.Finding // what was not so before or has become worse, and stays
	Tie    []Tie
}

// way is where lines may run beside the walls.
type way struct {
	name string
	over []string
}

func ways() []way {
	return []way{{"along the walls", nil}, {"also under the ceiling", []string{route.Ceiling}}}
}

// work is one question while it is answered.
type work struct {
	study    *study.Study
	wish     Wish
	before   past
	progress plan.Progress
	refused  error // the first that was
}

// Propose says what comes with the wish, what leaves least open first. The error is a
// *job.Refusal or *plan.Refused that tells what stands in the way, or that of ctx.
func Propose(ctx context.Context, s *study.Study, wish Wish, progress plan.Progress) ([]Proposal, error) {
	if err := wish.Check(s.Index(), s.Catalog()); err != nil {
		return nil, err
	}
	if err := wish.begins(s.Index()); err != nil {
		return nil, err
	}
	w := &work{study: s, wish: wish, before: past{}, progress: progress}
	d, outlet, err := w.drafted(ctx)
	if err != nil {
		return nil, err
	}
	progress("looking at what stands", 0, 0)
	old, err := findings(ctx, s, wish.System, nil, func([]job.Finding) bool { return false })
	if err != nil {
		return nil, err
	}
	for i := range old {
		key := keyOf(&old[i])
		w.before[key] = max(w.before[key], beyond(&old[i]))
	}
	out, err := w.all(ctx, d, outlet)
	if err != nil {
		return nil, err
	}
	if len(out) == 0 {
		return nil, w.refused
	}
	slices.SortStableFunc(out, func(a, b Proposal) int { return cmp.Compare(weight(&a), weight(&b)) })
	return out, nil
}

// drafted is the job with what is wished for, and no line to it yet.
func (w *work) drafted(ctx context.Context) (d draft, outlet job.ID, err error) {
	d = draft{study: w.study}
	if w.wish.Machine != "" && w.wish.At != nil {
		m, err := w.study.Model(ctx)
		if err != nil {
			return d, "", fmt.Errorf("reading the job as a network: %w", err)
		}
		if err := d.machine(m, w.wish.Machine); err != nil {
			return d, "", err
		}
	}
	if w.wish.At != nil {
		outlet, err = d.outlet(&w.wish)
	}
	return d, outlet, err
}

// weight orders proposals: dangers and faults left open first of all, then cautions.
func weight(p *Proposal) int {
	n := 0
	for i := range p.Open {
		n++
		if check.Worst(p.Open[i:i+1]) != job.Caution {
			n += 100
		}
	}
	return n
}

// all are the alternatives: where lines run, and whether what stands may have other sizes.
func (w *work) all(ctx context.Context, d draft, outlet job.ID) ([]Proposal, error) {
	if w.wish.At == nil {
		return w.machines(ctx)
	}
	var out []Proposal
	seen := ""
	for i, y := range ways() {
		laid, figures, err := w.lay(ctx, d, y, outlet)
		if err != nil {
			return nil, err
		}
		if laid == nil || figures == seen {
			continue
		}
		seen = figures
		laid.Outlet = outlet
		for _, stays := range []bool{true, false} {
			if i > 0 && !stays && len(out) > 0 {
				break // one look at other sizes of what stands is enough
			}
			p, err := w.sized(ctx, laid, stays)
			if err != nil {
				return nil, err
			}
			if p != nil && !slices.ContainsFunc(out, func(o Proposal) bool { return sameGrowth(&o, p) && i == 0 }) {
				out = append(out, *p)
			}
		}
	}
	return out, nil
}

// sameGrowth says whether two proposals for the same lines come to the same.
func sameGrowth(a, b *Proposal) bool {
	return slices.EqualFunc(a.Grows, b.Grows, func(x, y Grow) bool { return slices.Equal(x.Changes, y.Changes) }) && len(a.Open) == len(b.Open)
}

// laidLines is a proposal with its lines and not yet their sizes.
type laidLines struct {
	Proposal
	draft draft
}

// lay lays the line to the new outlet from what stands; nil where no way leads there, which is
// remembered. figures tell two lays apart.
func (w *work) lay(ctx context.Context, d draft, y way, outlet job.ID) (laid *laidLines, figures string, err error) {
	w.progress("laying the line", 0, 0)
	found, err := route.Propose(ctx, d.study, route.Wish{Over: y.over, Outlets: []job.ID{outlet}}, nil)
	if err != nil {
		return nil, "", w.remember(err)
	}
	p := &found[0]
	l := &laidLines{draft: draft{d.study, slices.Clone(d.edits)}}
	if err := l.draft.take(p.Edit); err != nil {
		return nil, "", w.remember(err)
	}
	l.Name, l.Notes = y.name, p.Words
	l.Proof = "no way of laying it over these places costs less"
	if !p.Proven {
		l.Proof = fmt.Sprintf("another way of laying it could save %.1f %% at most", 100*p.Gap)
	}
	f := &p.Figures
	return l, fmt.Sprintf("%.3f %d %d %.2f", f.Length, f.Bends, f.Tees, f.Price), nil
}

// remember keeps the first refusal; other errors are those of the program or of ctx.
func (w *work) remember(err error) error {
	var refusal *job.Refusal
	var refused *plan.Refused
	if !errors.As(err, &refusal) && !errors.As(err, &refused) {
		return err
	}
	if w.refused == nil {
		w.refused = err
	}
	return nil
}

// sized picks sizes, of what is new alone or of all that stands on its way as well, and takes
// the cures; nil where no sizes do it.
func (w *work) sized(ctx context.Context, l *laidLines, stays bool) (*Proposal, error) {
	p, d := l.Proposal, draft{l.draft.study, slices.Clone(l.draft.edits)}
	only := append(fresh(w.study.Index(), d.study.Index()), l.Outlet)
	name := "what stands stays"
	if !stays {
		name = "what is too small grows"
		more, err := w.onTheWay(ctx, d.study, l.Outlet)
		if err != nil {
			return nil, err
		}
		only = append(only, more...)
	}
	p.Name += ", " + name
	list, err := plan.Propose(ctx, d.study, plan.Wish{Sizes: true, Only: only, System: w.wish.System}, w.progress)
	if err != nil {
		if fatal := w.remember(err); fatal != nil || !stays {
			return nil, fatal
		}
		p.Notes = append(slices.Clone(p.Notes), "The new line keeps the sizes of the lines beside it. "+why(err))
		return w.finish(ctx, &p, d)
	}
	if best := &list[0]; len(best.Changes) > 0 {
		if err := d.take(best.Edit); err != nil {
			return nil, err
		}
		p.Proof += "; " + best.Proof
	}
	return w.finish(ctx, &p, d)
}

// onTheWay are the lines that the air for an outlet passes.
func (w *work) onTheWay(ctx context.Context, s *study.Study, outlet job.ID) ([]job.ID, error) {
	f, err := s.Flow(ctx)
	if err != nil {
		return nil, fmt.Errorf("following the air: %w", err)
	}
	m, err := s.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	var out []job.ID
	for i := range f.Sets {
		for k := range f.Sets[i].CutIn.Tools {
			t := &f.Sets[i].CutIn.Tools[k]
			if t.Outlet != outlet {
				continue
			}
			for n := range t.Path {
				if id := m.Elements()[t.Path[n].Element].ID; s.Index().Run(id) != nil && !slices.Contains(out, id) {
					out = append(out, id)
				}
			}
		}
	}
	return out, nil
}

// finish takes cures and tells what came of it.
func (w *work) finish(ctx context.Context, p *Proposal, d draft) (*Proposal, error) {
	g, err := grow(ctx, d, w.before, w.wish.System, func(round int) { w.progress("looking for what must grow with it", round, mostRounds+1) })
	if err != nil {
		return nil, err
	}
	p.After, p.Taken, p.Open = g.study, g.taken, g.open
	p.Edit = job.AllOf(title(&w.wish, p.Name), g.edits...)
	before, after := w.study.Index(), g.study.Index()
	p.Lines = fresh(before, after)
	p.Grows = compare(before, after, w.study.Catalog(), w.wish.System)
	if p.Tie, err = ties(ctx, w.study, after, p.Lines); err != nil {
		return nil, err
	}
	p.Words = words(p)
	return p, nil
}

// why is the first reason of a refusal.
func why(err error) string {
	var refused *plan.Refused
	if errors.As(err, &refused) && len(refused.Findings) > 0 {
		return refused.Findings[0].Title
	}
	var refusal *job.Refusal
	if errors.As(err, &refusal) && len(refusal.Findings) > 0 {
		return refusal.Findings[0].Title
	}
	return err.Error()
}

func title(w *Wish, name string) string {
	switch {
	case w.At == nil:
		return "put another compressor " + name
	case w.Machine != "":
		return fmt.Sprintf("added %q and another compressor", w.Name)
	}
	return fmt.Sprintf("added %q to what stands", w.Name)
}
