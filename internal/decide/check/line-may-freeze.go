package check

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var lineMayFreeze = Check{
	Code:   "line-may-freeze",
	Title:  "no line with wet air through a zone that freezes",
	Why:    "Water gathers at its low points, freezes and shuts the line: dry the air before it, warm the line, or let it fall to a drain.",
	Limit:  "0 °C in winter for a line before the dryer or without one; behind a dryer also its dew point and the margin of the rules",
	Source: custom("a line through an unheated space freezes at its low points"),
	Run:    runLineMayFreeze,
}

// frozen is the lines that may freeze in one zone.
type frozen struct {
	cold
	runs []*job.Run
	wet  bool // one of them lies before every dryer
}

func runLineMayFreeze(_ context.Context, c *Case) error {
	dry, behind := c.dryPoints(), c.net.behind(catalog.Dries)
	var zones []frozen
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		at := c.winter(r)
		if at.zone == nil || at.temp >= unit.Celsius(0) || r.State == "stub" || !c.wetRun(r, dry) {
			continue
		}
		k := slices.IndexFunc(zones, func(z frozen) bool { return z.zone == at.zone })
		if k < 0 {
			k, zones = len(zones), append(zones, frozen{cold: at})
		}
		zones[k].runs = append(zones[k].runs, r)
		zones[k].wet = zones[k].wet || c.wetRun(r, behind)
	}
	for i := range zones {
		c.reportFrozen(&zones[i])
	}
	return nil
}

// reportFrozen tells of the lines of one zone, the longest first.
func (c *Case) reportFrozen(z *frozen) {
	long := func(r *job.Run) unit.Length {
		l, _ := c.idx.LengthOf(r)
		return l
	}
	slices.SortStableFunc(z.runs, func(a, b *job.Run) int { return cmp.Compare(long(b), long(a)) })
	f := job.Finding{
		Severity: job.Caution,
		Figure:   figure("temperature_K", float64(z.temp)), Limit: figure("temperature_K", float64(unit.Celsius(0))),
	}
	for _, r := range z.runs {
		f.Where = append(f.Where, r.ID)
	}
	zone := z.zone.Name
	if zone == "" {
		zone = tail(z.zone.ID)
	}
	others := ""
	if n := len(z.runs) - 1; n > 0 {
		others = " and " + plural(n, "short line") + " there"
		if long(z.runs[1]) > 1 {
			others = " and " + plural(n, "other line") + " there"
		}
	}
	state := "with air that is not dried"
	if !z.wet {
		state = "with air that is not dried far enough for it"
	}
	f.Title = sentence("%s%s may freeze: %s in winter in %s, %s.", c.named(z.runs[0].ID), others, c.temp(z.temp), cure.Within(zone), state)
	c.report(f)
}
