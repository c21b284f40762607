package check

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

var overRating = Check{
	Code:   "over-rating",
	Title:  "nothing above what it is rated for at its temperature",
	Why:    "A part above its rating lets go without warning.",
	Limit:  "the lowest rating of line, joint, hose, coupler or part at its temperature, against cut-out or the regulator before it; beyond a table's last temperature no rating is taken",
	Source: []cite.Ref{{Source: "b31.9", Place: "design pressure and temperature", How: cite.Recalled}},
	Run:    runOverRating,
}

func runOverRating(_ context.Context, c *Case) error {
	var over, unknown []rated
	for _, r := range c.ratings() {
		switch {
		case !r.known:
			unknown = append(unknown, r)
		case r.sees > r.bears+1:
			over = append(over, r)
		}
	}
	slices.SortStableFunc(over, func(a, b rated) int { return cmp.Compare(a.bears, b.bears) })
	if len(over) > 0 {
		r := over[0]
		f := job.Finding{
			Severity: job.Danger, Where: idsOf(over), Source: []cite.Ref{r.ref},
			Figure: figure("pressure_Pa_g", float64(r.sees)), Limit: figure("pressure_Pa_g", float64(r.bears)),
			Title: sentence("%s bears %s%s and sees up to %s.", r.words, c.gauge(r.bears), c.atTemp(r.temp), c.gauge(r.sees)),
		}
		if n := len(over); n > 1 {
			f.Title = sentence("%s are above their rating; the lowest is %s, which bears %s%s and sees up to %s.",
				plural(n, "part"), r.words, c.gauge(r.bears), c.atTemp(r.temp), c.gauge(r.sees))
		}
		c.report(f)
	}
	if len(unknown) > 0 {
		r := unknown[0]
		c.report(job.Finding{
			Severity: job.Caution, Where: idsOf(unknown), Source: []cite.Ref{r.ref},
			Title: sentence("no rating holds for %s at %s: %s.", c.names(idsOf(unknown)), c.temp(r.temp), r.basis),
			Why:   "A rating is not carried beyond the last temperature of its table.",
		})
	}
	return nil
}

func idsOf(all []rated) []job.ID {
	out := make([]job.ID, 0, len(all))
	for i := range all {
		if !slices.Contains(out, all[i].id) {
			out = append(out, all[i].id)
		}
	}
	return out
}

// atTemp adds the temperature where a rating depends on it.
func (c *Case) atTemp(t unit.Temperature) string {
	if t == 0 {
		return ""
	}
	return " at " + c.temp(t)
}
