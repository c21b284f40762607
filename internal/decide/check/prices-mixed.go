package check

import (
	"context"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/internal/shop/job"
)

var pricesMixed = Check{
	Code:   "prices-mixed",
	Title:  "prices in one currency",
	Why:    "Sums in two currencies cannot be compared without a rate of the day, which nobody states here.",
	Limit:  "every offer and own price in the currency that the job reckons in; those in another are in no basket",
	Source: []cite.Ref{{Source: "common-practice", Place: "sums are of one currency", How: cite.Common}},
	Run:    runPricesMixed,
}

func runPricesMixed(_ context.Context, c *Case) error {
	money := c.job.Money()
	where, codes, n := []job.ID{}, []string{}, 0
	out := func(currency string) bool {
		if currency == "" || currency == money {
			return false
		}
		n++
		if !slices.Contains(codes, currency) {
			codes = append(codes, currency)
		}
		return true
	}
	for i := range c.job.Prices.Offers {
		if o := &c.job.Prices.Offers[i]; out(o.Currency) {
			where = append(where, o.ID)
		}
	}
	for _, p := range c.job.Prices.List {
		out(p.Currency)
	}
	if n == 0 {
		return nil
	}
	c.report(job.Finding{
		Severity: job.Note, Where: where,
		Title: sentence("%s in %s left out of every basket: the job reckons in %s.", pricesAre(n), strings.Join(codes, ", "), money),
	})
	return nil
}

func pricesAre(n int) string {
	if n == 1 {
		return "1 price"
	}
	return plural(n, "price")
}
