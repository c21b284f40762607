package check

import (
	"context"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var noFlexibleLink = Check{
	Code:   "no-flexible-link",
	Title:  "a flexible link between the machine and the rigid line",
	Why:    "The machine shakes, and a rigid joint cracks by it.",
	Limit:  "a flexible link before the first rigid line behind each receiver, or each compressor without one",
	Source: custom("isolating valve at the receiver, then a flexible link, then the rigid line"),
	Run:    runNoFlexibleLink,
}

func runNoFlexibleLink(_ context.Context, c *Case) error {
	soft := func(i int) bool {
		return c.net.has(i, catalog.Flexes) || c.net.has(i, catalog.Supplies) || c.net.has(i, catalog.Stores)
	}
	for _, r := range c.sourcePoints() {
		rigid := c.rigidFrom(r, soft)
		if rigid == nil {
			continue
		}
		id := c.net.spots[r].point.ID
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{id, rigid.ID},
			Title: sentence("%s is joined to %s without a flexible link.", c.named(id), c.named(rigid.ID)),
		})
	}
	return nil
}

// sourcePoints lists the points of the model's sources.
func (c *Case) sourcePoints() []int {
	var out []int
	for _, s := range c.model.Sources() {
		if i, ok := c.net.at[s.ID]; ok {
			out = append(out, i)
		}
	}
	return out
}

// rigidFrom is a fixed line of the net that air comes to from the point by
// nothing but rigid parts; nil where there is none.
func (c *Case) rigidFrom(from int, soft func(int) bool) *job.Run {
	seen := make([]bool, len(c.net.spots))
	seen[from] = true
	queue := []int{from}
	for n := 0; n < len(queue); n++ {
		i := queue[n]
		if n > 0 && soft(i) {
			continue
		}
		for _, e := range c.net.spots[i].legs {
			if stock, _ := c.shelf.Stock(e.run.Stock); stock.Form == "hose" || seen[e.to] {
				continue
			}
			if of(e.run, mains) || of(e.run, branches) || of(e.run, drops) {
				if !soft(e.to) || c.net.has(e.to, catalog.Stores) {
					return e.run
				}
			}
			seen[e.to] = true
			queue = append(queue, e.to)
		}
	}
	return nil
}
