package check

import (
	"context"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var noUnion = Check{
	Code:   "no-union",
	Title:  "plant that can be taken out",
	Why:    "Without a union or a flexible link beside it, a piece of plant comes out only by cutting the line.",
	Limit:  "a union, a flexible link or a line that pulls out by hand at each receiver, dryer and aftercooler",
	Source: custom("a union or a removable joint at each piece of plant"),
	Run:    runNoUnion,
}

func runNoUnion(_ context.Context, c *Case) error {
	var bare []job.ID
	for i := range c.net.spots {
		s := &c.net.spots[i]
		plant := s.kind.Has(catalog.Stores) || s.kind.Has(catalog.Dries) || s.kind.Has(catalog.Cools)
		if plant && !c.comesOut(i) {
			bare = append(bare, s.point.ID)
		}
	}
	if len(bare) > 0 {
		c.report(job.Finding{
			Severity: job.Note, Where: bare,
			Title: sentence("no union or flexible link stands beside %s.", c.names(bare)),
		})
	}
	return nil
}

// comesOut: every line that leads on from the part can be parted near it: by a
// union, a flexible link or a hose within three parts, or by its way of joining.
func (c *Case) comesOut(i int) bool {
	for _, e := range c.net.spots[i].legs {
		if _, twig := c.net.twig(i, e); twig {
			continue
		}
		if !c.partsNear(e) {
			return false
		}
	}
	return true
}

// near is within how many parts a union still serves a piece of plant.
const near = 3

func (c *Case) partsNear(e leg) bool {
	last := e
	for range near {
		stock, _ := c.shelf.Stock(last.run.Stock)
		if stock.Form == "hose" || opensByHand(stock.Joining) {
			return true
		}
		at := last.to
		k := c.net.spots[at].kind
		if k.Has(catalog.Unions) || k.Has(catalog.Flexes) {
			return true
		}
		if len(c.net.spots[at].legs) != 2 {
			return k.Has(catalog.Supplies) || k.Has(catalog.Stores)
		}
		next := c.net.spots[at].legs[0]
		if next.run == last.run {
			next = c.net.spots[at].legs[1]
		}
		last = next
	}
	return false
}

// opensByHand: the usual way of joining the stock comes apart without cutting.
func opensByHand(joining []string) bool {
	if len(joining) == 0 {
		return false
	}
	switch joining[0] {
	case "compression", "collet", "push-in", "straight-thread", "insert":
		return true
	}
	return false
}
