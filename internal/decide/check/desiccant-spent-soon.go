package check

import (
	"context"
	"fmt"

	"dropleg/engine/cite"
	"dropleg/internal/answer/water"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var desiccantSpentSoon = Check{
	Code:   "desiccant-spent-soon",
	Title:  "a filling of desiccant lasts for weeks",
	Why:    "A filling behind warm wet air is spent in days, and then it dries nothing and nobody sees it.",
	Limit:  "20 working days to the change of a filling, by the water that it takes in either season",
	Law:    "moist air from intake to outlet; a filling takes 15 % of its weight (10 to 25 %)",
	Source: []cite.Ref{{Source: "common-practice", Place: "what a bed in service takes up", How: cite.Recalled}},
	Run:    runDesiccantSpentSoon,
}

// leastLast is for how many working days a filling should last: a month of work.
const leastLast = 20

// spent is a filling that does not last, in the season that is worse.
type spent struct {
	season string
	dryer  water.Dryer
}

func runDesiccantSpentSoon(ctx context.Context, c *Case) error {
	a, err := c.wet(ctx)
	if err != nil || a == nil {
		return err
	}
	for _, s := range spentSoon(a) {
		d := &s.dryer
		f := job.Finding{
			Severity: job.Caution, Where: []job.ID{d.ID},
			Figure: figure("time_d", d.Lasts.Likely), Limit: figure("time_d", leastLast),
			Title: sentence("%s lasts about %s in the %s season (%.0f to %.0f) before its filling is spent.",
				c.named(d.ID), plural(max(1, int(d.Lasts.Likely+0.5)), "working day"), s.season, d.Lasts.Low, d.Lasts.High),
		}
		f.Cures, err = c.bench.CutInDryer(ctx, cure.Wet{
			Enough: func(after *water.Answer) bool {
				for _, x := range spentSoon(after) {
					if x.dryer.ID == d.ID {
						return false
					}
				}
				return true
			},
			Told: func(after *water.Answer) string { return lastsThen(after, d.ID) },
		}, a.Mean)
		if err != nil {
			return err
		}
		c.report(f)
	}
	return nil
}

// spentSoon lists the fillings that do not last, each in its worse season.
func spentSoon(a *water.Answer) []spent {
	var out []spent
	for _, season := range a.Seasons {
		for _, d := range season.Dryers {
			if d.Lasts == nil || d.Lasts.Likely >= leastLast {
				continue
			}
			known := false
			for i := range out {
				if out[i].dryer.ID == d.ID {
					known = true
					if d.Lasts.Likely < out[i].dryer.Lasts.Likely {
						out[i] = spent{season.Name, d}
					}
				}
			}
			if !known {
				out = append(out, spent{season.Name, d})
			}
		}
	}
	return out
}

// lastsThen is how long a filling lasts in its worse season, in words.
func lastsThen(a *water.Answer, dryer job.ID) string {
	least := -1.0
	for _, season := range a.Seasons {
		for _, d := range season.Dryers {
			if d.ID == dryer && d.Lasts != nil && (least < 0 || d.Lasts.Likely < least) {
				least = d.Lasts.Likely
			}
		}
	}
	if least < 0 {
		return "the filling then has nothing to take"
	}
	return fmt.Sprintf("the filling then lasts about %.0f working days", least)
}
