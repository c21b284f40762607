package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

var velocity = Check{
	Code:   "velocity",
	Title:  "velocity in lines and hoses",
	Why:    "Fast air loses much pressure, carries water along instead of dropping it, and is heard.",
	Limit:  "the velocities of the rules for mains and rings, for branches and drops, and for hoses, in any set at cut-in",
	Law:    "velocity = mass flow · R T / (pressure · bore area)",
	Source: custom("6 to 9 m/s in mains, up to 15 m/s in branches and drops, up to 30 m/s in hoses"),
	Run:    runVelocity,
}

// class is a kind of line with one limit.
type class struct {
	words string
	limit unit.Velocity
	ref   cite.Ref
	worst unit.Velocity
	set   int
	lead  *flow.Element
	over  []job.ID
}

func (c *Case) velocityClasses() map[string]*class {
	main, drop, hose := c.job.RuleMainVelocity(), c.job.RuleDropVelocity(), c.job.RuleHoseVelocity()
	return map[string]*class{
		"main": {words: "main", limit: main.Value, ref: main.Default.Ref},
		"drop": {words: "branch or drop", limit: drop.Value, ref: drop.Default.Ref},
		"hose": {words: "hose", limit: hose.Value, ref: hose.Default.Ref},
	}
}

func runVelocity(ctx context.Context, c *Case) error {
	classes := c.velocityClasses()
	seen := map[job.ID]bool{}
	for i := range c.flow.Sets {
		state := &c.flow.Sets[i].CutIn
		for k := range state.Elements {
			e := &state.Elements[k]
			l := classes[classOf(e)]
			if l == nil || !e.Known || e.VOut <= l.limit {
				continue
			}
			if !seen[e.ID] {
				seen[e.ID] = true
				l.over = append(l.over, e.ID)
			}
			if e.VOut > l.worst {
				l.worst, l.lead, l.set = e.VOut, e, i
			}
		}
	}
	for _, name := range []string{"main", "drop", "hose"} {
		if l := classes[name]; l.lead != nil {
			if err := c.reportVelocity(ctx, l); err != nil {
				return err
			}
		}
	}
	return nil
}

// classOf says which limit an element comes under; "" for none.
func classOf(e *flow.Element) string {
	switch {
	case e.Thing == model.ThingHose:
		return "hose"
	case e.Thing != model.ThingLine:
		return ""
	case e.Role == "main" || e.Role == "ring":
		return "main"
	case e.Role == "branch" || e.Role == "drop":
		return "drop"
	}
	return ""
}

func (c *Case) reportVelocity(ctx context.Context, l *class) error {
	f := job.Finding{
		Severity: job.Note, Where: append([]job.ID{l.lead.ID}, without(l.over, l.lead.ID)...),
		Figure: figure("velocity_m_s", float64(l.worst)), Limit: figure("velocity_m_s", float64(l.limit)), Source: []cite.Ref{l.ref},
	}
	// Up to half above the limit is a matter of taste; twice it is heard and felt.
	if l.worst > 1.5*l.limit {
		f.Severity = job.Caution
	}
	f.Title = sentence("air runs at %s in %s; %s is the limit for a %s.", c.speed(l.worst), c.named(l.lead.ID), c.speed(l.limit), l.words)
	if n := len(l.over); n > 1 {
		f.Title = sentence("air runs at up to %s in %s, fastest in %s; %s is the limit.", c.speed(l.worst), plural(n, l.words), c.named(l.lead.ID), c.speed(l.limit))
	}
	cured, err := c.slower(ctx, l)
	if err != nil {
		return err
	}
	f.Cures = cured
	c.report(f)
	return nil
}

// slower proposes a wider size of the line's stretch that brings the velocity
// under the limit in the set where it is worst.
func (c *Case) slower(ctx context.Context, l *class) ([]job.Cure, error) {
	run := c.idx.Run(l.lead.ID)
	if run == nil {
		return nil, nil
	}
	stretch := cure.StretchOf(c.idx, run)
	bore := float64(c.model.Elements()[l.lead.Index].Bore)
	// Velocity goes with the square of the bore; a little is left for the solver to judge.
	hopeful := func(wider float64) bool {
		return float64(l.worst)*bore*bore/(wider*wider) < 1.05*float64(l.limit)
	}
	found, ok, err := c.bench.Resized(ctx, stretch, hopeful, func(t *cure.Trial) (float64, bool, error) {
		r, err := t.Set(ctx, l.set)
		if err != nil || !r.Solved {
			return 0, false, err
		}
		for _, one := range stretch.Runs {
			for i := range t.Model().Elements() {
				if t.Model().Elements()[i].ID == one.ID && r.Flows[i].Out > l.limit {
					return 0, false, nil
				}
			}
		}
		return 0, true, nil
	})
	if err != nil || !ok {
		return nil, err
	}
	return []job.Cure{found}, nil
}

func without(ids []job.ID, id job.ID) []job.ID {
	out := make([]job.ID, 0, len(ids))
	for _, x := range ids {
		if x != id {
			out = append(out, x)
		}
	}
	return out
}
