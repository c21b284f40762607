package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/job"
)

var heldTooHard = Check{
	Code:  "held-too-hard",
	Title: "line that wants to grow and has nowhere to go",
	Why:   "A line that cannot grow pushes at what holds it, until a joint leaks or a fixing lets go.",
	Limit: "where a line grows by more than a millimetre, a leg that takes it up before the next fixed point",
	Law:   "growth = alpha L dT; leg = C sqrt(OD growth); a held line pushes with E A growth / L, as far as it stays elastic",
	Source: []cite.Ref{
		{Source: "leg-formula", Place: "L = C sqrt(OD growth)", How: cite.Recalled},
		{Source: "b31.9", Place: "table 919.3.1", How: cite.Read},
	},
	Run: runHeldTooHard,
}

// looseGrowth is what clips and joints give way to, m.
const looseGrowth = 0.001

func runHeldTooHard(ctx context.Context, c *Case) error {
	a, err := c.study.Hold(ctx)
	if err != nil {
		return err
	}
	for i := range a.Held {
		h := &a.Held[i]
		f := job.Finding{
			Severity: c.howHard(h), Where: h.Runs, Place: &h.At,
			Figure: figure("growth_m", float64(h.Growth)), Limit: figure("growth_m", looseGrowth),
		}
		if h.Needed != nil && h.There != nil {
			f.Figure, f.Limit = figure("leg_m", float64(*h.There)), figure("leg_m", float64(*h.Needed))
		}
		f.Title = sentence("%s %s%s.", c.growing(h), c.nowhere(a, h), c.pushes(h))
		c.report(f)
	}
	return nil
}

// howHard is a fault where the stress is known to pass what the material takes; what
// stands has shown that it holds.
func (c *Case) howHard(h *hold.Held) job.Severity {
	if h.State == "existing" {
		return job.Note
	}
	if h.Stress == nil {
		return job.Caution
	}
	for _, id := range h.Runs {
		stock, _ := c.shelf.Stock(c.idx.Run(id).Stock)
		if m, ok := c.shelf.Material(stock.Material); ok && m.Stress > 0 && *h.Stress > m.Stress {
			return job.Fault
		}
	}
	return job.Caution
}

// growing words what grows, by how much.
func (c *Case) growing(h *hold.Held) string {
	grows := " grows "
	if len(h.Runs) > 1 {
		grows = " grow "
	}
	return c.names(h.Runs) + grows + c.length(h.Growth)
}

// nowhere words why that has nowhere to go, and what would let it.
func (c *Case) nowhere(a *hold.Answer, h *hold.Held) string {
	if h.Needed != nil && h.There != nil {
		return "into a leg of " + c.length(*h.There) + "; it wants one of " + c.length(*h.Needed)
	}
	words := "between two fixed points"
	for i := range a.Loops {
		if l := &a.Loops[i]; l.Stretch == h.Where {
			words += "; " + plural(l.Count, "loop") + " with legs of " + c.length(l.Leg) + " would let it"
		}
	}
	return words
}

// pushes words the force on the fixed points.
func (c *Case) pushes(h *hold.Held) string {
	if h.Push == nil {
		return ""
	}
	if h.BowsAt != nil && *h.Push > *h.BowsAt {
		return ", and it bows out between its supports from " + c.system.Force(*h.BowsAt) + " on"
	}
	return ", and pushes with " + c.system.Force(*h.Push)
}

func (c *Case) length(x unit.Length) string {
	return c.system.Text(unit.KindLength, float64(x), c.env)
}
