package check

import (
	"context"
	"slices"

	"dropleg/internal/shop/job"
)

var notModelled = Check{
	Code:   "not-modelled",
	Title:  "everything drawn counts in the network",
	Why:    "What is left out of the network is left out of every figure.",
	Limit:  "each part, line, hose and coupler known to the catalogue, each compressor with what it delivers",
	Source: custom("what is drawn is counted"),
	Run:    runNotModelled,
}

// toldElsewhere are the model's findings that a check of its own words.
var toldElsewhere = []string{"shut-off", "no-answer"}

func runNotModelled(_ context.Context, c *Case) error {
	told := map[string]bool{}
	for _, f := range c.flow.Findings {
		if slices.Contains(toldElsewhere, f.Code) {
			continue
		}
		key := f.Code
		for _, id := range f.Where {
			key += " " + string(id)
		}
		if told[key] {
			continue
		}
		told[key] = true
		f.Title, f.Why = sentence("%s.", f.Title), sentence("%s.", f.Why)
		c.report(job.Finding{
			Severity: f.Severity, Title: f.Title, Why: f.Why, Where: f.Where, Figure: f.Figure, Limit: f.Limit,
		})
	}
	return nil
}
