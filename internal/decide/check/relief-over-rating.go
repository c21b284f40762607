package check

import (
	"context"
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var reliefOverRating = Check{
	Code:  "relief-over-rating",
	Title: "the relief valve set below the lowest rating it protects",
	Why:   "If the pressure switch sticks, the relief valve is all that stands between the pump and the weakest part.",
	Limit: "the lowest rating of the receiver and of what no regulator parts from it",
	Source: []cite.Ref{
		{Source: "iso5388", Place: "safety valves", How: cite.Recalled},
		{Source: "common-practice", Place: "never above the lowest-rated part that it protects", How: cite.Common},
	},
	Run: runReliefOverRating,
}

func runReliefOverRating(ctx context.Context, c *Case) error {
	weakest, any := c.weakest()
	for _, r := range c.net.with(catalog.Relieves) {
		part := &c.net.spots[r].point.Part
		if part.Set == nil || !any || *part.Set <= weakest.bears+1 {
			continue
		}
		id := c.net.spots[r].point.ID
		f := job.Finding{
			Severity: job.Fault, Where: []job.ID{id, weakest.id},
			Source: append([]cite.Ref{weakest.ref}, c.check.Source...),
			Figure: figure("pressure_Pa_g", float64(*part.Set)), Limit: figure("pressure_Pa_g", float64(weakest.bears)),
			Title: sentence("%s opens at %s, and %s bears %s.", c.named(id), c.gauge(*part.Set), weakest.words, c.gauge(weakest.bears)),
		}
		if p := c.idx.Point(weakest.id); p != nil && c.net.has(c.net.at[p.ID], catalog.Stores) {
			f.Severity = job.Danger // a receiver above its stamp is against the law nearly everywhere
		}
		_, cutOut, _ := c.supplyPressures()
		// A relief valve that opens below cut-out would blow all day.
		if to := math.Floor(float64(weakest.bears)/1e4) * 1e4; to > float64(cutOut)*1.05 {
			cures, err := c.propose(ctx, "a relief valve set to "+c.gauge(unit.GaugePressure(to)), cure.Set(id, "part.set_kPa_g", to/1e3))
			if err != nil {
				return err
			}
			f.Cures = cures
		}
		c.report(f)
	}
	return nil
}

// weakest is the lowest-rated thing that no regulator parts from the supply,
// receivers as stamped included.
func (c *Case) weakest() (rated, bool) {
	best, found := rated{}, false
	take := func(r rated) {
		if r.known && (!found || r.bears < best.bears) {
			best, found = r, true
		}
	}
	for _, i := range c.net.with(catalog.Stores) {
		if p := c.net.spots[i].point; p.Part.Rating != nil {
			take(rated{id: p.ID, words: c.named(p.ID), bears: *p.Part.Rating, known: true, ref: cite.Ref{Source: "common-practice", Place: "as stamped on the receiver", How: cite.Common}})
		}
	}
	for _, r := range c.ratings() {
		if r.direct {
			take(r)
		}
	}
	return best, found
}
