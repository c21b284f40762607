package check

import (
	"context"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var wetLineWithoutDrip = Check{
	Code:   "wet-line-without-drip",
	Title:  "a drip leg or a drained block at each drop of a wet line",
	Why:    "Water that runs down a drop has to be caught below the outlet, or it goes into the tool.",
	Limit:  "a pocket with a drain at or below the last outlet of each drop, where the air may be wet",
	Source: custom("a drip leg and drain below the last outlet of each drop"),
	Run:    runWetLineWithoutDrip,
}

func runWetLineWithoutDrip(_ context.Context, c *Case) error {
	dry, maybe := c.dryPoints(), c.net.behind(catalog.Dries)
	var wet, unsure []job.ID
	for _, s := range c.net.sections(drops, slices.Concat(mains, branches)) {
		outlets := c.outletsOf(s)
		if len(outlets) == 0 || c.caught(s) {
			continue
		}
		at := c.net.at[outlets[0].Point]
		for _, o := range outlets {
			switch {
			case dry[at]:
			case maybe[at]:
				unsure = append(unsure, o.ID)
			default:
				wet = append(wet, o.ID)
			}
		}
	}
	if len(wet) > 0 {
		c.report(job.Finding{
			Severity: job.Caution, Where: wet, Cures: c.hangDrip(wet),
			Title: sentence("the air is not dried, and nothing catches its water at %s.", c.names(wet)),
		})
	}
	if len(unsure) > 0 {
		c.reportUnsure(unsure)
	}
	return nil
}

// reportUnsure tells of drops behind a dryer that does not, or may not, hold
// the air dry enough.
func (c *Case) reportUnsure(where []job.ID) {
	coldest, worst, known := c.dewPoints()
	f := job.Finding{Severity: job.Note, Where: where}
	limit := float64(coldest) - float64(c.job.RuleFreezeMargin().Value)
	f.Title = sentence("nothing catches water at %s, and what dew point the dryer holds is not stated.", c.names(where))
	if known {
		f.Figure, f.Limit = figure("dew_point_K", float64(worst)), figure("dew_point_K", limit)
		f.Title = sentence("the dryer holds a dew point of %s, little below the coldest line at %s, and nothing catches water at %s.",
			c.temp(worst), c.temp(coldest), c.names(where))
		if worst > coldest {
			f.Severity = job.Caution
			f.Title = sentence("the dryer holds a dew point of %s, the coldest line is at %s, and nothing catches water at %s.",
				c.temp(worst), c.temp(coldest), c.names(where))
		}
	}
	c.report(f)
}

// outletsOf lists the outlets of a section.
func (c *Case) outletsOf(s section) []*job.Outlet {
	var out []*job.Outlet
	for _, i := range s.points {
		if !slices.Contains(s.from, i) {
			out = append(out, c.net.spots[i].outlets...)
		}
	}
	return out
}

// caught: the drop has a pocket with a drain, or leads down past its outlets to one.
func (c *Case) caught(s section) bool {
	for _, i := range s.points {
		if slices.Contains(s.from, i) {
			continue
		}
		if (pocket(c.net.spots[i].kind) || c.net.touches(i, []string{"drip"})) && c.net.drained(i) {
			return true
		}
		if c.net.has(i, catalog.Drains) {
			return true
		}
		for _, o := range c.net.spots[i].outlets {
			// A drain on a plain elbow drains it as well as a pocket would.
			if c.net.hangs(o, catalog.Drains) {
				return true
			}
		}
	}
	return false
}
