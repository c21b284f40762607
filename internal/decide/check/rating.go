package check

import (
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// rated is one thing with the greatest pressure that it bears, where it is known.
type rated struct {
	id     job.ID
	words  string
	bears  unit.GaugePressure
	known  bool
	basis  string
	ref    cite.Ref
	sees   unit.GaugePressure // cut-out, or the regulator before it
	temp   unit.Temperature
	direct bool // no regulator stands between it and the compressor
}

// ratings lists lines, hoses, couplers, treatment and stamped parts that a
// compressor feeds, with what they bear at the temperature about them. What no
// table and no stamp speaks of is left out; where a table ends below the
// temperature the thing is listed as not known.
func (c *Case) ratings() []rated {
	var out []rated
	_, cutOut, ok := c.supplyPressures()
	if !ok {
		return nil
	}
	add := func(r rated, e *model.Element) {
		top := c.highest()
		sees := math.Max(top[e.From], top[e.To])
		if math.IsInf(sees, -1) {
			return // nothing feeds it
		}
		r.sees, r.direct = unit.GaugePressure(sees), sees >= float64(cutOut)-1
		out = append(out, r)
	}
	for i := range c.model.Elements() {
		e := &c.model.Elements()[i]
		switch {
		case e.Thing == model.ThingLine:
			if r, ok := c.lineRating(e); ok {
				add(r, e)
			}
		case e.Thing == model.ThingHose:
			if row, ok := c.shelf.Hose(e.Item); ok && row.Rating > 0 {
				add(c.hoseRating(e, row), e)
			}
		case e.Thing == model.ThingCoupler && e.Item != "":
			if row, ok := c.shelf.Coupler(e.Item); ok && row.Rating > 0 {
				add(rated{id: e.ID, words: "the coupler at " + c.named(e.Outlet), bears: row.Rating, known: true, ref: row.Ref}, e)
			}
		default:
			if r, ok := c.partRating(e); ok {
				add(r, e)
			}
		}
	}
	return out
}

// lineRating is what a line bears at its zone's summer temperature.
func (c *Case) lineRating(e *model.Element) (rated, bool) {
	run := c.idx.Run(e.ID)
	if run == nil {
		return rated{}, false
	}
	stock, ok := c.shelf.Stock(run.Stock)
	if !ok || stock.FitForAir == "no" {
		return rated{}, false // said by another check
	}
	temp := c.job.ClimateOf(c.idx.ZoneOf(run)).Summer
	r := rated{id: run.ID, words: c.named(run.ID), temp: temp}
	r.bears, r.basis, r.ref, r.known = stock.Rating(run.Size, temp, "")
	if !r.known {
		// No table at all is a gap of the catalogue, not of the design.
		if _, _, _, atAll := stock.Rating(run.Size, unit.Celsius(20), ""); !atAll {
			return rated{}, false
		}
	}
	return r, true
}

// hoseRating is what a hose bears; above the temperature of its class that is not known.
func (c *Case) hoseRating(e *model.Element, row catalog.Hose) rated {
	r := rated{id: e.ID, words: c.named(e.ID), bears: row.Rating, known: true, basis: row.Words, ref: row.Ref}
	if p := c.place(e.ID); p != nil {
		r.temp = c.job.ClimateOf(c.idx.ZoneAt(*p)).Summer
		r.known = row.MaxTemp <= 0 || r.temp.Celsius() <= row.MaxTemp
	}
	return r
}

// partRating is what a stamped part or a class of treatment bears.
func (c *Case) partRating(e *model.Element) (rated, bool) {
	p := c.partOf(e.ID, e.Outlet, e.Kind)
	if p == nil {
		return rated{}, false
	}
	r := rated{id: e.ID, words: c.named(e.ID), known: true}
	switch row, ok := c.shelf.Treat(e.Item); {
	case p.Rating != nil:
		r.bears, r.basis = *p.Rating, "as stamped"
		r.ref = cite.Ref{Source: "common-practice", Place: "as stamped on the part", How: cite.Common}
	case ok && row.Rating > 0:
		r.bears, r.basis, r.ref = row.Rating, row.Words, row.Ref
	default:
		return rated{}, false
	}
	return r, true
}
