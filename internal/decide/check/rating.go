package check

import (
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
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
		b, ok := model.BearsOf(c.idx, c.shelf, e)
		if !ok {
			continue
		}
		words := c.named(e.ID)
		if e.Thing == model.ThingCoupler {
			words = "the coupler at " + c.named(e.Outlet)
		}
		add(rated{id: e.ID, words: words, bears: b.Pressure, known: b.Known, basis: b.Basis, ref: b.Ref, temp: b.Temp}, e)
	}
	return out
}
