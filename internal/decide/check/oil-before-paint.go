package check

import (
	"context"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var oilBeforePaint = Check{
	Code:   "oil-before-paint",
	Title:  "no lubricator before a paint tool",
	Why:    "Oil in the air ruins paint, and a line that was oiled once stays oily.",
	Limit:  "no lubricator on a way to an outlet where a tool that bears no oil is used",
	Source: custom("no lubricator upstream of paint"),
	Run:    runOilBeforePaint,
}

func runOilBeforePaint(_ context.Context, c *Case) error {
	start := c.net.with(catalog.Supplies)
	oiled := make([]bool, len(c.net.spots))
	for _, i := range c.net.with(catalog.Lubricates) {
		// Downstream: what the lubricator reaches without going back by where its air came from.
		up := c.net.reach(start, func(k int) bool { return k == i })
		for k, seen := range c.net.reach([]int{i}, func(k int) bool { return k != i && up[k] }) {
			oiled[k] = oiled[k] || (seen && !up[k])
		}
	}
	for i := range c.net.spots {
		for _, o := range c.net.spots[i].outlets {
			c.judgeOil(o, oiled[i])
		}
	}
	return nil
}

func (c *Case) judgeOil(o *job.Outlet, oiled bool) {
	if !oiled && !c.net.hangs(o, catalog.Lubricates) {
		return
	}
	for _, id := range o.Tools {
		t := c.idx.Tool(id)
		if t == nil || !c.bearsNoOil(t) {
			continue
		}
		c.report(job.Finding{
			Severity: job.Fault, Where: []job.ID{id, o.ID},
			Title: sentence("%s at %s bears no oil, and a lubricator stands before it.", c.named(id), c.named(o.ID)),
		})
	}
}

// bearsNoOil: the tool's class says so, or it asks for oil class 0 to 2 of ISO 8573-1.
func (c *Case) bearsNoOil(t *job.Tool) bool {
	row, _ := c.shelf.Tool(t.Item)
	return row.NoOil || slices.Contains([]string{"0", "1", "2"}, t.Oil)
}
