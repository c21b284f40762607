package check

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var takesMoreThanRated = Check{
	Code:   "takes-more-than-rated",
	Title:  "no tool fed far above the pressure that it is rated at",
	Why:    "A tool takes air in proportion to its pressure: above what it is rated at it only costs more, and wears sooner.",
	Limit:  "free air at cut-out up to a quarter above the tool's rated flow; tools that run for less than 1 % of the time, or that by custom run at the line's pressure (tyres, impact wrenches), are not told",
	Law:    "the tool as an opening at its pressure, in the network",
	Source: custom("a regulator before each tool, set to what it is rated at"),
	Run:    runTakesMoreThanRated,
}

const (
	mostOver   = 1.25 // of the rated flow
	leastShare = 0.01
)

// greedy is a tool that takes more than it is rated for.
type greedy struct {
	job.InUse
	takes, rated unit.FreeAir
	share        float64
	at           unit.GaugePressure // that it is rated at
}

func runTakesMoreThanRated(ctx context.Context, c *Case) error {
	all := c.greedy()
	if len(all) == 0 {
		return nil
	}
	f := job.Finding{Severity: job.Note}
	var tools []job.ID
	for _, g := range all {
		tools = append(tools, g.Tool)
	}
	worst := all[0]
	f.Where = append(tools, worst.Outlet)
	f.Figure, f.Limit = figure("free_air_m3_s", float64(worst.takes)), figure("free_air_m3_s", float64(worst.rated*mostOver))
	f.Title = sentence("nothing holds the pressure down before %s: %s takes %s at cut-out, rated for %s at %s.",
		c.names(tools), c.named(worst.Tool), c.air(worst.takes), c.air(worst.rated), c.gauge(worst.at))
	var err error
	if f.Cures, err = c.regulated(ctx, worst); err != nil {
		return err
	}
	c.report(f)
	return nil
}

// regulated hangs a regulator before a tool, of the size of what hangs there.
func (c *Case) regulated(ctx context.Context, g greedy) ([]job.Cure, error) {
	o := c.idx.Outlet(g.Outlet)
	if o == nil {
		return nil, nil
	}
	place, size := len(o.Hang), ""
	for i := range o.Hang {
		if k := c.net.hung(&o.Hang[i]); k.Has(catalog.Couples) {
			place = min(place, i)
		}
		size = cmp.Or(size, o.Hang[i].Size)
	}
	row, ok := c.regulatorFor(size, g.rated)
	if !ok {
		return nil, nil
	}
	part := job.Part{ID: c.idx.FreshID("part.regulator"), Kind: row.Kind, Item: row.Item, Size: row.Size, Set: new(g.at)}
	add := job.AddOf(&part)
	add.What, add.To, add.At = "part", o.ID, &place
	cured, ok, err := c.bench.Propose(ctx, fmt.Sprintf("%s at %s, set to %s", row.Words, c.named(o.ID), c.gauge(g.at)), add)
	if err != nil || !ok {
		return nil, err
	}
	return []job.Cure{cured}, nil
}

// regulatorFor is the smallest plain regulator of the catalogue for a flow, of a size
// where one is given.
func (c *Case) regulatorFor(size string, flow unit.FreeAir) (best catalog.Treat, ok bool) {
	for _, t := range c.shelf.Treatment() {
		k, known := c.shelf.Kind(t.Kind)
		if !known || !k.Has(catalog.Regulates) || k.Has(catalog.Filters) || t.RatedFlow < flow || size != "" && t.Size != size {
			continue
		}
		if !ok || t.RatedFlow < best.RatedFlow {
			best, ok = t, true
		}
	}
	return best, ok
}

// shareOf is the share of the working time in which a tool runs.
func (c *Case) shareOf(tool job.ID) float64 {
	for _, t := range c.model.Tools() {
		if t.ID == tool {
			return t.Share
		}
	}
	return 0
}

// unheld: a class of tool that by custom is fed before any regulator.
func (c *Case) unheld(tool job.ID) bool {
	t := c.idx.Tool(tool)
	if t == nil {
		return false
	}
	row, _ := c.shelf.Tool(t.Item)
	return row.Unheld
}

// greedy lists the tools that take more than they are rated for at cut-out, by what that
// costs in air, the most first; each at the outlet where it takes most.
func (c *Case) greedy() []greedy {
	var out []greedy
	for i := range c.flow.Sets {
		s := &c.flow.Sets[i].CutOut
		for k := range s.Tools {
			t := &s.Tools[k]
			use := job.InUse{Tool: t.Tool, Outlet: t.Outlet}
			p, ok := c.model.PairOf(use)
			if !s.Solved || !t.Known || !ok || p.Later || p.FreeAir <= 0 || t.Flow <= p.FreeAir*mostOver || t.Pressure <= p.Rated {
				continue
			}
			g := greedy{InUse: use, takes: t.Flow, rated: p.FreeAir, share: c.shareOf(t.Tool), at: p.Rated}
			if g.share < leastShare || c.unheld(t.Tool) {
				continue
			}
			n := slices.IndexFunc(out, func(x greedy) bool { return x.Tool == t.Tool })
			switch {
			case n < 0:
				out = append(out, g)
			case g.takes > out[n].takes:
				out[n] = g
			}
		}
	}
	over := func(g greedy) float64 { return float64(g.takes-g.rated) * g.share }
	slices.SortStableFunc(out, func(x, y greedy) int { return cmp.Compare(over(y), over(x)) })
	return out
}
