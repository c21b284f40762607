package check

import (
	"context"
	"slices"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

var supplyShort = Check{
	Code:   "supply-short",
	Title:  "the compressors deliver what a set takes",
	Why:    "What the tools take beyond the compressor's delivery comes out of the receiver, and the pressure falls until it is spent.",
	Limit:  "free air delivered at the working pressure, less the leak allowance of the rules; a shortfall that the receiver bridges for the tools' usual bursts, or of which the working days tell, is a note",
	Law:    "receiver fall, isothermal: t = V Δp / (R T · shortfall)",
	Source: custom("free air delivered against what runs together"),
	Run:    runSupplyShort,
}

func runSupplyShort(ctx context.Context, c *Case) error {
	set := c.shortestSupply(anySet)
	if set == nil {
		return nil
	}
	short, enough, err := c.supplyInDays(ctx)
	if err != nil {
		return err
	}
	// Who goes short by it, and how often, the days say; where they find that nobody
	// does, a set that is meant to run together still needs its air.
	meant := c.shortestSupply(isMeant)
	told := short || enough
	if enough && meant != nil && !c.bridged(meant) {
		set, told = meant, false
	}
	s := &set.Supply
	takes := s.Taken + s.Leak
	f := job.Finding{
		Severity: job.Fault,
		Figure:   figure("free_air_m3_s", float64(takes)), Limit: figure("free_air_m3_s", float64(s.Delivered)),
	}
	for _, m := range c.model.Compressors() {
		f.Where = append(f.Where, m.ID)
	}
	for _, u := range set.Running {
		f.Where = append(f.Where, u.Tool)
	}
	tail := ", and no receiver bridges it"
	if s.Rides != nil && *s.Rides > 0 {
		tail = "; a full receiver bridges that for " + c.time(*s.Rides)
		if c.bridged(set) {
			f.Severity = job.Note
			tail += ", longer than the longest usual burst"
		}
	}
	if told {
		f.Severity = job.Note
	}
	f.Title = sentence("%s %s with leaks, and the supply delivers %s%s.", c.setWords(set), c.air(takes), c.air(s.Delivered), tail)
	c.report(f)
	return nil
}

// anySet takes every set, isMeant those that stand in the job.
func anySet(*flow.Set) bool { return true }

func isMeant(set *flow.Set) bool { return set.Why == demand.Named }

// shortestSupply is the set of some that goes furthest beyond what is delivered; nil
// where none does.
func (c *Case) shortestSupply(of func(*flow.Set) bool) *flow.Set {
	var worst *flow.Set
	for i := range c.flow.Sets {
		set := &c.flow.Sets[i]
		if of(set) && set.Supply.Short > 0 && set.Supply.Delivered > 0 && (worst == nil || set.Supply.Short > worst.Supply.Short) {
			worst = set
		}
	}
	return worst
}

// bridged: a full receiver covers the set's shortfall for the longest usual burst.
func (c *Case) bridged(set *flow.Set) bool {
	s := &set.Supply
	return s.Rides != nil && *s.Rides > 0 && float64(*s.Rides) >= c.longestBurst(set)
}

// supplyFault: some set that is not rare takes more than delivery and receiver give.
func (c *Case) supplyFault() bool {
	set := c.shortestSupply(anySet)
	return set != nil && !c.bridged(set)
}

// supplyInDays: the working days tell of tools that go short by the supply, or show
// that it is enough; neither where they are too few to tell.
func (c *Case) supplyInDays(ctx context.Context) (short, enough bool, err error) {
	a, err := c.days(ctx)
	if err != nil || a == nil {
		return false, false, err
	}
	if !c.plannedFor(a) {
		return true, false, nil
	}
	rare := c.job.RuleRare().Value
	return false, !slices.ContainsFunc(a.Tools, func(t day.Tool) bool { return t.Short+t.Within > rare }), nil
}

// setWords names the tools of a set.
func (c *Case) setWords(set *flow.Set) string {
	words := make([]string, 0, len(set.Running))
	for _, u := range set.Running {
		words = append(words, c.named(u.Tool))
	}
	if len(words) == 1 {
		return words[0] + " alone takes"
	}
	return listed(words) + " together take"
}

// longestBurst is the longest usual burst of a set's tools, s.
func (c *Case) longestBurst(set *flow.Set) float64 {
	longest := 0.0
	for _, u := range set.Running {
		for _, t := range c.model.Tools() {
			if t.ID == u.Tool {
				longest = max(longest, float64(t.Burst))
			}
		}
	}
	return longest
}
