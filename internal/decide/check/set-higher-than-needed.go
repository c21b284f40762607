package check

import (
	"context"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

var setHigherThanNeeded = Check{
	Code:   "set-higher-than-needed",
	Title:  "no higher pressure than the tools need",
	Why:    "Every step of pressure that no tool asks for is paid for in electricity, and leaks and open tools take more air by it.",
	Limit:  "cut-in and cut-out from which every tool, in every set of tools and in small shops in a few working days, keeps its least pressure and the margin of the rules; told from 20 kPa",
	Law:    "the network solved at the lower cut-in, and working days with it",
	Source: custom("as low as the work allows"),
	Run:    runSetHigherThanNeeded,
}

// worthLowering is what is told, Pa.
const worthLowering = 20e3

func runSetHigherThanNeeded(ctx context.Context, c *Case) error {
	by, cured, err := c.bench.LowerSet(ctx)
	if err != nil || by < worthLowering {
		return err
	}
	f := job.Finding{Severity: job.Note, Cures: []job.Cure{cured}, Figure: figure("pressure_Pa", by), Limit: figure("pressure_Pa", worthLowering)}
	for _, m := range c.model.Compressors() {
		f.Where = append(f.Where, m.ID)
	}
	f.Title = sentence("cut-in and cut-out could be %s lower with every tool keeping its pressure and the margin.", c.diff(unit.PressureDiff(by)))
	c.report(f)
	return nil
}
