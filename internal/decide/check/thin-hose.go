package check

import (
	"context"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

var thinHose = Check{
	Code:   "thin-hose",
	Title:  "hoses that lose more than the whole line",
	Why:    "The last metres of thin hose often lose more than the rest of the shop, and cost least to change.",
	Limit:  "a hose that takes more than all else on the way, and more than 30 kPa, of a tool that has enough all the same",
	Law:    "isothermal flow in hoses",
	Source: custom("reach with a short hose beats a long one"),
	Run:    runThinHose,
}

// thinLoss is the loss from which a hose is worth a word where nobody is short, Pa.
const thinLoss = 30e3

func runThinHose(_ context.Context, c *Case) error {
	var where []job.ID
	var worst *flow.Step
	for i := range c.flow.Tools {
		w := &c.flow.Tools[i]
		if w.Set < 0 || !w.Known || !c.flow.Sets[w.Set].CutIn.Solved || w.Pressure < c.needOf(w) {
			continue // where pressure is short the hose is among the cures
		}
		s := hoseOver(c.toolIn(w))
		if s == nil {
			continue
		}
		where = append(where, s.ID)
		if worst == nil || s.Loss > worst.Loss {
			worst = s
		}
	}
	if worst == nil {
		return nil
	}
	c.report(job.Finding{
		Severity: job.Note, Where: unique(append([]job.ID{worst.ID}, where...)),
		Figure: figure("loss_Pa", float64(worst.Loss)), Limit: figure("loss_Pa", thinLoss),
		Title: sentence("%s (%s) loses %s, more than all the rest of the way.", c.named(worst.ID), worst.Words, c.diff(worst.Loss)),
	})
	return nil
}

// hoseOver is the hose on a tool's way that loses more than all the rest; nil
// where there is none.
func hoseOver(t *flow.Tool) *flow.Step {
	if t == nil {
		return nil
	}
	total := 0.0
	var hose *flow.Step
	for i := range t.Path {
		s := &t.Path[i]
		total += float64(s.Loss)
		if s.Thing == model.ThingHose {
			hose = s
		}
	}
	if hose == nil || float64(hose.Loss) < thinLoss || float64(hose.Loss) < total/2 {
		return nil
	}
	return hose
}
