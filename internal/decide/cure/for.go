package cure

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

// refused tells an edit that does not fit from a failure.
func refused(err error) bool {
	var r *job.Refusal
	return errors.As(err, &r)
}

// Advice is what can be done for one tool.
type Advice struct {
	Cures []job.Cure
	// SupplyUnder: the pressure at the source is below what the tool wants, so
	// that no line, hose or coupler cures it.
	SupplyUnder bool
	// Alone: some single change cures it. Together: it takes the pair given.
	Alone, Together bool
}

// Effort of one tool: places tried for its worst set, cures verified on all sets
// that they touch, cures given, pairs tried.
const (
	mostPlaces   = 7
	mostVerified = 4
	mostGiven    = 4
	mostPairs    = 3
	fewCures     = 3 // single changes that cure, from which no more are looked for
)

// proposal is a change before it is tried.
type proposal struct {
	words   string
	edits   []job.Edit
	place   string   // what it changes: two of one place are not joined
	guess   float64  // Pa that it might give, by how losses follow bores
	price   *float64 // by the job's own price list
	touches []int    // elements changed; nil: all sets are concerned
	gain    float64  // Pa, solved
	cures   bool
	days    *day.Answer // worked through with it, where it was tried so
}

// For finds what gives a tool, in one moment of the flows, the pressure that it
// lacks to its least and the margin. What might be changed is ordered by a
// guess and solved for that moment alone; only what helps is solved for every
// set it touches, and kept if nobody becomes short by it.
func (b *Bench) For(ctx context.Context, set int, got *flow.Tool) (Advice, error) {
	lack := float64(got.Least) + b.margin - float64(got.Pressure)
	advice := Advice{}
	if lack <= 0 || len(got.Path) == 0 {
		return advice, nil
	}
	advice.SupplyUnder = float64(got.Path[0].In) <= float64(got.Least)+b.margin
	all, err := b.solvePlaces(ctx, set, got, lack, b.proposals(got, lack, advice.SupplyUnder))
	if err != nil {
		return advice, err
	}
	rankProposals(all)
	kept, err := b.verified(ctx, all, mostVerified)
	if err != nil {
		return advice, err
	}
	advice.Alone = slices.ContainsFunc(kept, func(p *proposal) bool { return p.cures })
	if advice.Alone {
		kept = slices.DeleteFunc(kept, func(p *proposal) bool { return !p.cures })
	} else {
		pair, err := b.pairs(ctx, set, got, lack, kept)
		if err != nil {
			return advice, err
		}
		advice.Together = pair != nil
		if pair != nil {
			kept = append([]*proposal{pair}, kept...)
		}
	}
	for _, p := range kept[:min(len(kept), mostGiven)] {
		gain := p.gain
		advice.Cures = append(advice.Cures, job.Cure{
			Words: p.words, Edits: forms(p.edits), GainPa: &gain, Price: p.price, Cures: p.cures, Verified: true,
		})
	}
	return advice, nil
}

// solvePlaces works out what the proposals give in the tool's worst moment, place
// by place, the likeliest place first and at each the smallest change first.
// It stops when it has a few that cure, and leaves small helps aside where there
// are cures. Of each place it gives the smallest that cures, else the one that
// gives most.
func (b *Bench) solvePlaces(ctx context.Context, set int, got *flow.Tool, lack float64, all []*proposal) ([]*proposal, error) {
	var out []*proposal
	cured := 0
	for n, steps := range places(all, lack) {
		hopeful := steps[len(steps)-1].guess >= 0.7*lack
		if n == mostPlaces || cured >= fewCures || cured > 0 && !hopeful {
			break
		}
		var best *proposal
		for _, p := range steps {
			if b.spent() && !b.wasTried(p.edits) {
				continue
			}
			if err := b.solve(ctx, set, got, lack, p); err != nil {
				return nil, err
			}
			if best == nil || p.gain > best.gain {
				best = p
			}
			if p.cures {
				cured++
				break
			}
		}
		if best != nil && best.gain > harmless {
			out = append(out, best)
		}
	}
	return out, nil
}

// places groups proposals by what they change, each group by rising guess; the
// groups that may cure come first, then those that may give most.
func places(all []*proposal, lack float64) [][]*proposal {
	var groups [][]*proposal
	at := map[string]int{}
	for _, p := range all {
		i, ok := at[p.place]
		if !ok {
			i = len(groups)
			at[p.place] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], p)
	}
	most := func(g []*proposal) float64 { return g[len(g)-1].guess }
	for _, g := range groups {
		slices.SortStableFunc(g, func(x, y *proposal) int { return cmp.Compare(x.guess, y.guess) })
	}
	slices.SortStableFunc(groups, func(x, y []*proposal) int {
		if mayX, mayY := most(x) >= lack, most(y) >= lack; mayX != mayY {
			if mayX {
				return -1
			}
			return 1
		}
		return cmp.Compare(most(y), most(x))
	})
	return groups
}

// solve works out the gain of a proposal in the tool's worst moment; none where
// its edits do not fit.
func (b *Bench) solve(ctx context.Context, set int, got *flow.Tool, lack float64, p *proposal) error {
	t, err := b.Try(ctx, p.edits...)
	if refused(err) {
		return nil
	}
	if err != nil {
		return err
	}
	after, known, err := t.Pressure(ctx, set, job.InUse{Tool: got.Tool, Outlet: got.Outlet})
	if err != nil || !known {
		return err
	}
	p.gain = float64(after - got.Pressure)
	p.cures = p.gain >= lack
	return nil
}

// rankProposals puts what cures first; then by gain per money where every
// proposal has a price, else by gain.
func rankProposals(all []*proposal) {
	priced := !slices.ContainsFunc(all, func(p *proposal) bool { return p.price == nil || *p.price <= 0 })
	worth := func(p *proposal) float64 {
		if priced {
			return p.gain / *p.price
		}
		return p.gain
	}
	slices.SortStableFunc(all, func(x, y *proposal) int {
		if x.cures != y.cures {
			if x.cures {
				return -1
			}
			return 1
		}
		return cmp.Compare(worth(y), worth(x))
	})
}

// verified keeps what makes nobody short; it stops when it has enough.
func (b *Bench) verified(ctx context.Context, all []*proposal, enough int) ([]*proposal, error) {
	var kept []*proposal
	for _, p := range all {
		if len(kept) == enough {
			break
		}
		ok, err := b.helpsOnly(ctx, p)
		if err != nil {
			return nil, err
		}
		if ok {
			kept = append(kept, p)
		}
	}
	return kept, nil
}

// helpsOnly: nobody becomes short by the proposal.
func (b *Bench) helpsOnly(ctx context.Context, p *proposal) (bool, error) {
	t, err := b.Try(ctx, p.edits...)
	if err != nil {
		return false, err
	}
	harmed, err := t.Harmed(ctx, func(set int) bool { return b.carries(set, p.touches) })
	return len(harmed) == 0, err
}

// carries says whether any of the elements carries air in a set; with none
// named the change concerns every set.
func (b *Bench) carries(set int, elements []int) bool {
	r := b.flow.Sets[set].CutIn.Result
	if elements == nil || r == nil {
		return true
	}
	for _, e := range elements {
		if math.Abs(float64(r.Flows[e].Mass)) > 1e-9 {
			return true
		}
	}
	return false
}

// pairs joins the best partial changes two by two and gives the first pair that
// cures and makes nobody short; nil where none does.
func (b *Bench) pairs(ctx context.Context, set int, got *flow.Tool, lack float64, kept []*proposal) (*proposal, error) {
	var all []*proposal
	for i, x := range kept {
		for _, y := range kept[i+1:] {
			if x.place != y.place && x.gain+y.gain > 0.7*lack {
				all = append(all, joined(x, y))
			}
		}
	}
	slices.SortStableFunc(all, func(x, y *proposal) int { return cmp.Compare(y.guess, x.guess) })
	all = all[:min(len(all), mostPairs)]
	for _, p := range all {
		if b.spent() && !b.wasTried(p.edits) {
			continue
		}
		if err := b.solve(ctx, set, got, lack, p); err != nil {
			return nil, err
		}
	}
	all = slices.DeleteFunc(all, func(p *proposal) bool { return !p.cures })
	rankProposals(all)
	best, err := b.verified(ctx, all, 1)
	if err != nil || len(best) == 0 {
		return nil, err
	}
	return best[0], nil
}

// joined is two proposals as one.
func joined(x, y *proposal) *proposal {
	p := &proposal{
		words: x.words + ", and " + y.words, edits: slices.Concat(x.edits, y.edits),
		place: x.place + " and " + y.place, guess: x.gain + y.gain,
	}
	if x.touches != nil && y.touches != nil {
		p.touches = slices.Concat(x.touches, y.touches)
	}
	if x.price != nil && y.price != nil {
		sum := *x.price + *y.price
		p.price = &sum
	}
	return p
}

// text shows a quantity in the person's units.
func (b *Bench) text(k unit.Kind, v float64) string {
	return b.system.Text(k, v, unit.Env{Atmosphere: b.model.Atmosphere()})
}
