package check

import (
	"context"

	"dropleg/internal/shop/job"
)

var shutOff = Check{
	Code:   "shut-off",
	Title:  "every tool on a line that a compressor feeds",
	Why:    "No open way leads there: the pressure behind a shut valve or a gap in the line is not determined.",
	Limit:  "an open way from a compressor or receiver to every outlet",
	Source: custom("a line that is drawn is joined"),
	Run:    runShutOff,
}

func runShutOff(_ context.Context, c *Case) error {
	var outlets, valves []job.ID
	for _, f := range c.model.Findings() {
		if f.Code != "shut-off" {
			continue
		}
		outlets = append(outlets, f.Where[0])
		valves = f.Where[1:]
	}
	if len(outlets) == 0 {
		return nil
	}
	f := job.Finding{Severity: job.Fault, Where: append(unique(outlets), valves...)}
	if len(valves) > 0 {
		f.Severity = job.Caution // a shut valve is how it stands today, not how it was drawn
		f.Title = sentence("%s get no air while %s shut.", c.names(outlets), standing(c.names(valves), len(valves)))
	} else {
		f.Title = sentence("no line leads from a compressor to %s.", c.names(outlets))
	}
	c.report(f)
	return nil
}

func standing(words string, n int) string {
	if n == 1 {
		return words + " stands"
	}
	return words + " stand"
}
