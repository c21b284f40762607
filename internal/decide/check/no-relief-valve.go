package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var noReliefValve = Check{
	Code:   "no-relief-valve",
	Title:  "a relief valve at each receiver",
	Why:    "If the pressure switch sticks, a receiver without a relief valve is filled until it bursts.",
	Limit:  "a relief valve that nothing can shut off from the receiver",
	Source: []cite.Ref{{Source: "iso5388", Place: "safety valves", How: cite.Recalled}},
	Run:    runNoReliefValve,
}

func runNoReliefValve(_ context.Context, c *Case) error {
	for _, r := range c.net.with(catalog.Stores) {
		open := c.net.reach([]int{r}, func(i int) bool {
			return c.net.has(i, catalog.Isolates) || c.net.has(i, catalog.Checks) || c.net.has(i, catalog.Regulates)
		})
		found := false
		for _, v := range c.net.with(catalog.Relieves) {
			found = found || open[v]
		}
		if found {
			continue
		}
		id := c.net.spots[r].point.ID
		f := job.Finding{
			Severity: job.Danger, Where: []job.ID{id},
			Title: sentence("no relief valve that stays open to %s is on the drawing.", c.named(id)),
		}
		c.report(f)
	}
	return nil
}
