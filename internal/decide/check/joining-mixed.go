package check

import (
	"context"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

var joiningMixed = Check{
	Code:   "joining-mixed",
	Title:  "one system of joining at each joint",
	Why:    "Systems that only look alike do not seal: tube and fitting of two makes, inch and metric, thread and collet.",
	Limit:  "at each joint both sides of one way of joining and one measure, or a part between that is made for both",
	Source: custom("systems that only look alike are not mixed"),
	Run:    runJoiningMixed,
}

func runJoiningMixed(ctx context.Context, c *Case) error {
	a, err := c.study.Parts(ctx)
	if err != nil {
		return err
	}
	var all []*parts.Joint
	f := job.Finding{Severity: job.Note}
	for i := range a.Joints {
		k := &a.Joints[i]
		if !k.Mixed {
			continue
		}
		all = append(all, k)
		if k.State == parts.Planned {
			f.Severity = job.Caution
		}
		for _, s := range k.Sides {
			f.Where = append(f.Where, parts.ThingOf(s.Thing))
		}
	}
	if len(all) == 0 {
		return nil
	}
	f.Where = unique(f.Where)
	first := all[0]
	between := c.named(parts.ThingOf(first.Sides[0].Thing)) + " and " + c.named(parts.ThingOf(first.Sides[1].Thing))
	f.Title = sentence("between %s two systems of joining meet: %s.", between, first.Problem)
	if n := len(all) - 1; n > 0 {
		f.Title = sentence("at %s two systems of joining meet, first between %s: %s.", plural(n+1, "joint"), between, first.Problem)
	}
	c.report(f)
	return nil
}
