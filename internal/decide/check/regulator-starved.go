package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var regulatorStarved = Check{
	Code:   "regulator-starved",
	Title:  "each regulator gets more than it is set to",
	Why:    "A regulator can only hold what it gets: with its inlet down at the setting it is one more restriction, and the pressure behind it swings with the receiver.",
	Limit:  "inlet pressure above the set pressure in every set at cut-in",
	Law:    "regulator: set pressure less droop, wide open beneath it",
	Source: []cite.Ref{{Source: "iso6358", Place: "wide-open conductance", How: cite.Computed}},
	Run:    runRegulatorStarved,
}

// regulator is a regulator of the job with the element that it is in the model.
type regulator struct {
	id      job.ID
	set     unit.GaugePressure
	element int
	words   string
}

// regulators lists the regulators that state a set pressure and lie in the network.
func (c *Case) regulators() []regulator {
	var out []regulator
	for i := range c.model.Elements() {
		e := &c.model.Elements()[i]
		kind, ok := c.shelf.Kind(e.Kind)
		if !ok || e.Kind == "" || !kind.Has(catalog.Regulates) {
			continue
		}
		if p := c.partOf(e.ID, e.Outlet, e.Kind); p != nil && p.Set != nil {
			out = append(out, regulator{e.ID, *p.Set, i, c.named(e.ID)})
		}
	}
	return out
}

// partOf is the part of the job that an element of the model stands for. A part
// that hangs without an id of its own goes by its outlet's and is found by kind.
func (c *Case) partOf(id, outlet job.ID, kind string) *job.Part {
	if p := c.idx.Point(id); p != nil {
		return &p.Part
	}
	o := c.idx.Outlet(outlet)
	if o == nil {
		return nil
	}
	for i := range o.Hang {
		if o.Hang[i].ID == id && id != outlet || id == outlet && o.Hang[i].Kind == kind {
			return &o.Hang[i]
		}
	}
	return nil
}

func runRegulatorStarved(_ context.Context, c *Case) error {
	for _, r := range c.regulators() {
		least, at := unit.GaugePressure(0), -1
		for i := range c.flow.Sets {
			e := &c.flow.Sets[i].CutIn.Elements
			if !c.flow.Sets[i].CutIn.Solved || len(*e) <= r.element {
				continue
			}
			x := &(*e)[r.element]
			if x.Known && x.Flow > 0 && (at < 0 || x.In < least) {
				least, at = x.In, i
			}
		}
		if at < 0 || least > r.set {
			continue
		}
		if c.pointless(r) {
			continue // said once, by the other check
		}
		c.report(job.Finding{
			Severity: job.Caution, Where: []job.ID{r.id},
			Figure: figure("pressure_Pa_g", float64(least)), Limit: figure("pressure_Pa_g", float64(r.set)),
			Title: sentence("%s is set to %s and gets only %s%s.", r.words, c.gauge(r.set), c.gauge(least), c.runningAll(&c.flow.Sets[at])),
		})
	}
	return nil
}

// runningAll is the tools of a set in words.
func (c *Case) runningAll(set *flow.Set) string { return c.running(set, "") }

// pointless: set at or above what the compressor ever reaches.
func (c *Case) pointless(r regulator) bool {
	_, cutOut, ok := c.supplyPressures()
	return ok && r.set >= cutOut
}
