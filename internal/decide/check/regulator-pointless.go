package check

import (
	"context"

	"dropleg/internal/shop/job"
)

var regulatorPointless = Check{
	Code:   "regulator-pointless",
	Title:  "no regulator set above what the compressor reaches",
	Why:    "It never regulates: it only takes pressure away.",
	Limit:  "set pressure below cut-out",
	Source: custom("a regulator is set below what it is fed"),
	Run:    runRegulatorPointless,
}

func runRegulatorPointless(_ context.Context, c *Case) error {
	_, cutOut, ok := c.supplyPressures()
	if !ok {
		return nil
	}
	for _, r := range c.regulators() {
		if !c.pointless(r) {
			continue
		}
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{r.id},
			Figure: figure("pressure_Pa_g", float64(r.set)), Limit: figure("pressure_Pa_g", float64(cutOut)),
			Title: sentence("%s is set to %s, and the compressor stops at %s.", r.words, c.gauge(r.set), c.gauge(cutOut)),
		})
	}
	return nil
}
