package check

import (
	"context"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

var supplyShort = Check{
	Code:   "supply-short",
	Title:  "the compressors deliver what a set takes",
	Why:    "What the tools take beyond the compressor's delivery comes out of the receiver, and the pressure falls until it is spent.",
	Limit:  "free air delivered at the working pressure, less the leak allowance of the rules; a shortfall that the receiver bridges for the tools' usual bursts is a note",
	Law:    "receiver fall, isothermal: t = V Δp / (R T · shortfall)",
	Source: custom("free air delivered against what runs together"),
	Run:    runSupplyShort,
}

func runSupplyShort(_ context.Context, c *Case) error {
	worst := -1
	for i := range c.flow.Sets {
		s := &c.flow.Sets[i].Supply
		if s.Short > 0 && s.Delivered > 0 && (worst < 0 || s.Short > c.flow.Sets[worst].Supply.Short) {
			worst = i
		}
	}
	if worst < 0 {
		return nil
	}
	set := &c.flow.Sets[worst]
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
		if float64(*s.Rides) >= c.longestBurst(set) {
			f.Severity = job.Note
			tail += ", longer than the longest usual burst"
		}
	}
	f.Title = sentence("%s %s with leaks, and the supply delivers %s%s.", c.setWords(set), c.air(takes), c.air(s.Delivered), tail)
	c.report(f)
	return nil
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
