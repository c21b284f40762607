package check

import (
	"context"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var neverFull = Check{
	Code:   "never-full",
	Title:  "the compressors catch up within the day",
	Why:    "What is taken in the mean has to be delivered: no receiver and no wider line makes up for it, more air or fewer leaks do.",
	Limit:  "cut-out is reached at least once in working days drawn by chance; shops of more than about sixty tools are not looked at",
	Law:    "working days: compressor, receiver and tools through time, isothermal",
	Source: custom("free air delivered against what is taken in the mean"),
	Run:    runNeverFull,
}

func runNeverFull(ctx context.Context, c *Case) error {
	a, err := c.days(ctx)
	if err != nil || a == nil || a.Full {
		return err
	}
	delivered := unit.FreeAir(0)
	for _, k := range c.model.Compressors() {
		delivered += k.FreeAir
	}
	short := c.shortInDays(a)
	f := job.Finding{
		Severity: job.Fault, Where: machines(a),
		Figure: figure("free_air_m3_s", float64(a.Taken)), Limit: figure("free_air_m3_s", float64(delivered)),
	}
	who := ""
	if len(short) > 0 {
		who = "; " + c.named(short[0].ID) + " goes short of pressure " + shareWords(&short[0]) + " of its time" + c.othersShort(short)
		f.Where = append(f.Where, c.shortWhere(a, short)...)
	}
	f.Where = unique(f.Where)
	f.Title = sentence("%s the supply never reaches cut-out: it can deliver %s, and tools and leaks take %s in the mean, with the receiver down to %s%s.",
		byDays(a), c.air(delivered), c.air(a.Taken), c.gauge(a.Lowest), who)
	f.Cures, err = c.bench.ForDays(ctx, cure.Days{
		Answer: a, Enough: c.plannedFor, Told: c.leftShort, Times: storeGuess, Air: true,
		Left: func(after *day.Answer) float64 {
			if after.Full {
				return c.longestShort(after)
			}
			return 1 + c.longestShort(after)
		},
	})
	if err != nil {
		return err
	}
	c.report(f)
	return nil
}
