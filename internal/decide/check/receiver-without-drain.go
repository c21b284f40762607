package check

import (
	"context"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var receiverWithoutDrain = Check{
	Code:   "receiver-without-drain",
	Title:  "a drain at each receiver",
	Why:    "Most of the water falls out in the receiver: undrained it rusts the shell, takes up room and goes down the line.",
	Limit:  "a drain, by hand or automatic, at the receiver",
	Source: custom("receiver has a drain that someone opens, or an automatic one"),
	Run:    runReceiverWithoutDrain,
}

func runReceiverWithoutDrain(_ context.Context, c *Case) error {
	for _, r := range c.net.with(catalog.Stores) {
		if c.net.drained(r) {
			continue
		}
		id := c.net.spots[r].point.ID
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{id},
			Title: sentence("no drain of %s is on the drawing.", c.named(id)),
		})
	}
	return nil
}
