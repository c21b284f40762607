package check

import (
	"context"

	"dropleg/internal/shop/job"
)

var noAnswer = Check{
	Code:   "no-answer",
	Title:  "a steady state for every set of tools",
	Why:    "Where no pressure can carry what is asked for, the tools starve and no figure can be given.",
	Limit:  "the network has an answer",
	Law:    "mass balance at every place of the net",
	Source: custom("what flows in flows out"),
	Run:    runNoAnswer,
}

func runNoAnswer(_ context.Context, c *Case) error {
	for i := range c.flow.Sets {
		set := &c.flow.Sets[i]
		if set.CutIn.Solved || set.CutIn.Result == nil {
			continue
		}
		for _, f := range set.CutIn.Result.Findings {
			if f.Code != "no-answer" {
				continue
			}
			where := f.Where
			for _, u := range set.Running {
				where = append(where, u.Tool)
			}
			c.report(job.Finding{
				Severity: job.Fault, Where: unique(where), Why: sentence("%s.", f.Why),
				Title: sentence("no steady state%s: %s.", c.running(set, ""), f.Title),
			})
			return nil // the first tells enough: the rest follow from it
		}
	}
	return nil
}
