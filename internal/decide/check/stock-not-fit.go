package check

import (
	"context"
	"slices"

	"dropleg/engine/cite"
	"dropleg/internal/shop/job"
)

var stockNotFit = Check{
	Code:   "stock-not-fit",
	Title:  "lines of a stock that is not fit for compressed air",
	Why:    "A plastic that shatters throws splinters when it lets go.",
	Limit:  "no stock that its maker, a standard or the law excludes for compressed gas",
	Source: []cite.Ref{{Source: "osha-pvc1990", Place: "above-ground thermoplastic pipe", How: cite.Read}},
	Run:    runStockNotFit,
}

func runStockNotFit(_ context.Context, c *Case) error {
	var order []string
	lines := map[string][]job.ID{}
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		if _, ok := lines[r.Stock]; !ok {
			order = append(order, r.Stock)
		}
		lines[r.Stock] = append(lines[r.Stock], r.ID)
	}
	for _, id := range order {
		stock, ok := c.shelf.Stock(id)
		if !ok {
			continue
		}
		f := job.Finding{Where: lines[id], Source: stock.Authority}
		if stock.Why != "" {
			f.Why = sentence("%s.", stock.Why)
		}
		switch {
		case stock.FitForAir == "no":
			f.Severity = job.Danger
			f.Title = sentence("%s of %s: not fit for compressed air.", plural(len(lines[id]), "line"), stock.Words)
		case stock.FitForAir == "limited":
			f.Severity = job.Note
			f.Title = sentence("%s of %s: fit for compressed air within limits.", plural(len(lines[id]), "line"), stock.Words)
		case len(c.job.Rules.Allowed) > 0 && !slices.Contains(c.job.Rules.Allowed, id):
			f.Severity = job.Caution
			f.Title = sentence("%s of %s, which the rules of this job do not allow.", plural(len(lines[id]), "line"), stock.Words)
			f.Why = "The job's own rules list the stocks that may be used."
		default:
			continue
		}
		if len(f.Source) == 0 {
			f.Source = []cite.Ref{stock.Ref}
		}
		c.report(f)
	}
	return nil
}
