package check

import (
	"context"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var dryerOrder = Check{
	Code:   "dryer-order",
	Title:  "cool, drain and filter before a dryer that takes no water itself",
	Why:    "A desiccant bed fed with warm wet air is spent in days.",
	Limit:  "a water separator or a filter with a bowl before each dryer that has no drain of its own",
	Source: custom("cool first, then drain, then filter, then dry"),
	Run:    runDryerOrder,
}

func runDryerOrder(_ context.Context, c *Case) error {
	trapped := c.net.behindAny(func(i int) bool {
		k := c.net.spots[i].kind
		return bowl(k) && !k.Has(catalog.Dries) || k.Has(catalog.Separates)
	})
	for _, i := range c.net.with(catalog.Dries) {
		if c.net.has(i, catalog.Collects) || trapped[i] {
			continue
		}
		id := c.net.spots[i].point.ID
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{id},
			Title: sentence("nothing takes the water out before %s.", c.named(id)),
		})
	}
	return nil
}
