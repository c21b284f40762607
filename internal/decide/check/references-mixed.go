package check

import (
	"context"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

var referencesMixed = Check{
	Code:  "references-mixed",
	Title: "flows compared at one reference",
	Why:   "The same air has another volume at each reference, so that figures from different plates are not to be compared as they stand.",
	Limit: "every flow at one reference, or each with its own stated; a compressor by what it delivers, not by its displacement",
	Source: []cite.Ref{
		{Source: "scfm-usage", Place: "meanings of scfm", How: cite.Recalled},
		{Source: "iso1217", Place: "free air", How: cite.Recalled},
	},
	Run: runReferencesMixed,
}

// stated is one flow of the job as its plate gives it.
type stated struct {
	id   job.ID
	flow *job.Flow
}

func runReferencesMixed(_ context.Context, c *Case) error {
	supply, tools := c.statedFlows()
	c.displacements()
	if len(supply) == 0 || len(tools) == 0 {
		return nil
	}
	byOwn, unmarked := []job.ID{}, []job.ID{}
	least, greatest := math.Inf(1), math.Inf(-1)
	for _, s := range append(supply, tools...) {
		if s.flow.Reference == "" {
			unmarked = append(unmarked, s.id)
		} else {
			byOwn = append(byOwn, s.id)
		}
		if d, ok := c.referenceDensity(unit.Reference(s.flow.Reference)); ok {
			least, greatest = math.Min(least, d), math.Max(greatest, d)
		}
	}
	if len(byOwn) == 0 || len(unmarked) == 0 {
		return nil // all marked are converted exactly; none marked stand at the job's own
	}
	spread := greatest/least - 1
	if c.job.Site.FlowAt == "" {
		spread = math.Max(spread, c.widestGuess(byOwn, supply, tools))
	}
	if spread < 0.01 {
		return nil
	}
	c.report(job.Finding{
		Severity: job.Note, Where: unmarked, Figure: figure("ratio", spread), Limit: figure("ratio", 0.01),
		Title: sentence("%s without a reference, beside others that state theirs: this can make %.0f %%.", stateFlow(len(unmarked)), 100*spread),
	})
	return nil
}

func stateFlow(n int) string {
	if n == 1 {
		return "1 flow stands"
	}
	return plural(n, "flow") + " stand"
}

// statedFlows lists the plate flows of compressors and of tools.
func (c *Case) statedFlows() (supply, tools []stated) {
	for i := range c.job.Net.Points {
		p := &c.job.Net.Points[i]
		if m := p.Part.Compressor; m != nil && m.FreeAir != nil && m.PumpUp == nil {
			supply = append(supply, stated{p.ID, m.FreeAir})
		}
	}
	for i := range c.job.Tools {
		if t := &c.job.Tools[i]; t.Flow != nil {
			tools = append(tools, stated{t.ID, t.Flow})
		}
	}
	return supply, tools
}

// referenceDensity is kg of dry air in a m³ of a reference; of none stated that
// of the job's own, else free air.
func (c *Case) referenceDensity(name unit.Reference) (float64, bool) {
	if name == "" {
		name = unit.Reference(c.job.Site.FlowAt)
	}
	if name == "" {
		name = unit.RefISO1217
	}
	r, ok := air.ReferenceNamed(name)
	return float64(r.DryDensity()), ok
}

// widestGuess is how far an unmarked flow may be off the marked ones: it might
// be meant at any of the references in use.
func (c *Case) widestGuess(marked []job.ID, lists ...[]stated) float64 {
	widest := 0.0
	mine := map[job.ID]bool{}
	for _, id := range marked {
		mine[id] = true
	}
	for _, list := range lists {
		for _, s := range list {
			d, ok := c.referenceDensity(unit.Reference(s.flow.Reference))
			if !ok || !mine[s.id] {
				continue
			}
			for _, r := range air.References() {
				widest = math.Max(widest, math.Abs(float64(r.DryDensity())/d-1))
			}
		}
	}
	return widest
}

// displacements tells of compressors known by what they sweep alone.
func (c *Case) displacements() {
	for i := range c.job.Net.Points {
		p := &c.job.Net.Points[i]
		m := p.Part.Compressor
		if m == nil || m.Displacement == nil || m.FreeAir != nil || m.PumpUp != nil {
			continue
		}
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{p.ID},
			Title: sentence("%s states its displacement; it delivers about 60 to 85 %% of that, and 70 %% is counted.", c.named(p.ID)),
			Why:   "What a pump sweeps is not what it delivers at pressure; a timed pump-up tells.",
		})
	}
}
