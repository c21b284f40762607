package check

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// dewPoint is the pressure dew point that a drying part holds, as stated or as
// its catalogue row says.
func (c *Case) dewPoint(p *job.Part) (unit.Temperature, bool) {
	if p.DewPoint != nil {
		return *p.DewPoint, true
	}
	if row, ok := c.shelf.Treat(p.Item); ok && row.DewPoint != nil {
		return unit.Celsius(*row.DewPoint), true
	}
	return 0, false
}

// dewPoints is the winter temperature of the coldest line, the worst dew point
// of all dryers, and whether every dryer's is known.
func (c *Case) dewPoints() (coldest, worst unit.Temperature, known bool) {
	for n, i := range c.net.with(catalog.Dries) {
		d, ok := c.dewPoint(&c.net.spots[i].point.Part)
		if !ok {
			return c.coldest(), 0, false
		}
		if n == 0 || d > worst {
			worst, known = d, true
		}
	}
	return c.coldest(), worst, known
}

// coldest is the winter temperature of the coldest line; 20 °C of none.
func (c *Case) coldest() unit.Temperature {
	least := unit.Celsius(20)
	for i := range c.job.Net.Runs {
		least = min(least, c.job.ClimateOf(c.idx.ZoneOf(&c.job.Net.Runs[i])).Winter)
	}
	return least
}

// dryPoints marks where no water can fall out: behind a dryer whose dew point
// lies below the coldest line by the margin of the rules.
func (c *Case) dryPoints() []bool {
	limit := float64(c.coldest()) - float64(c.job.RuleFreezeMargin().Value)
	return c.net.behindAny(func(i int) bool {
		d, ok := c.dewPoint(&c.net.spots[i].point.Part)
		return c.net.has(i, catalog.Dries) && ok && float64(d) <= limit
	})
}
