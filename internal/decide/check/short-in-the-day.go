package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/internal/answer/day"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var shortInTheDay = Check{
	Code:  "short-in-the-day",
	Title: "every tool has its pressure through the working day",
	Why:   "The receiver falls while tools take more than the compressor delivers; what is short then is store, delivery or band.",
	Limit: "the share of its running time that a tool goes short, in working days drawn by chance, against the share of the rules that is not planned for; shops of more than about sixty tools are not looked at",
	Law:   "working days: compressor, receiver and tools through time, isothermal",
	Source: []cite.Ref{
		{Source: "hunter1940", Place: "what is rare is not planned for", How: cite.Computed},
	},
	Run: runShortInTheDay,
}

func runShortInTheDay(ctx context.Context, c *Case) error {
	a, err := c.days(ctx)
	if err != nil || a == nil || !a.Full {
		return err // a supply that cannot keep up is told by never-full
	}
	short := c.shortInDays(a)
	if len(short) == 0 {
		return nil
	}
	worst, rare := &short[0], c.job.RuleRare()
	f := job.Finding{
		Severity: job.Caution, Where: c.shortWhere(a, short), Source: append([]cite.Ref{rare.Default.Ref}, c.check.Source...),
		Figure: figure("ratio", float64(worst.Short)), Limit: figure("ratio", float64(rare.Value)),
		Range: &[2]float64{max(0, float64(worst.Short-worst.Within)), float64(worst.Short + worst.Within)},
	}
	may := "may go"
	switch {
	case worst.Short-worst.Within > rare.Value:
		f.Severity, may = job.Fault, "goes"
	case c.supplyFault():
		f.Severity = job.Fault // the fault that supply-short would tell; it is told once
	}
	f.Title = sentence("%s %s %s short of pressure %s of its time%s%s; the receiver falls to %s, and %s %% is planned for.",
		byDays(a), c.named(worst.ID), may, shareWords(worst), c.mostlyWith(worst), c.othersShort(short), c.gauge(a.Lowest), points(rare.Value))
	f.Cures, err = c.bench.ForDays(ctx, cure.Days{
		Answer: a, Short: short, Times: storeGuess, Enough: c.plannedFor, Told: c.leftShort, Left: c.longestShort,
	})
	if err != nil {
		return err
	}
	c.report(f)
	return nil
}

// storeGuess is by how much more store a shortage in the day is first met with.
const storeGuess = 1.5

// othersShort counts those that go short beside the worst.
func (c *Case) othersShort(short []day.Tool) string {
	switch n := len(short) - 1; n {
	case 0:
		return ""
	case 1:
		return ", and " + c.named(short[1].ID) + " " + shareWords(&short[1])
	default:
		return ", and " + plural(n, "other tool") + " less"
	}
}

// shortWhere is the tools that go short, where the worst does, and the compressors.
func (c *Case) shortWhere(a *day.Answer, short []day.Tool) []job.ID {
	var out []job.ID
	for _, t := range short {
		out = append(out, t.ID)
	}
	if worst := short[0]; len(worst.Spoilt) > 0 {
		for _, u := range worst.Spoilt[0].Running {
			if u.Tool == worst.ID {
				out = append(out, u.Outlet)
				break
			}
		}
	}
	return unique(append(out, machines(a)...))
}
