package check

import (
	"slices"

	"dropleg/engine/geom"
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

// dewPoints is the winter temperature of the coldest line behind the dryers, the
// worst dew point of all dryers, and whether every dryer's is known.
func (c *Case) dewPoints() (coldest, worst unit.Temperature, known bool) {
	coldest = c.coldest(c.net.behind(catalog.Dries))
	for n, i := range c.net.with(catalog.Dries) {
		d, ok := c.dewPoint(&c.net.spots[i].point.Part)
		if !ok {
			return coldest, 0, false
		}
		if n == 0 || d > worst {
			worst, known = d, true
		}
	}
	return coldest, worst, known
}

// coldest is the winter temperature of the coldest line among those that end
// behind a dryer; 20 °C of none. What lies before the dryer is wet by nature
// and is judged by itself.
func (c *Case) coldest(behind []bool) unit.Temperature {
	least := unit.Celsius(20)
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		if !c.wetRun(r, behind) {
			least = min(least, c.winter(r).temp)
		}
	}
	return least
}

// wetRun: the run does not lie behind a dryer, given the points that do. The
// run from the dryer itself does.
func (c *Case) wetRun(r *job.Run, behind []bool) bool {
	from, ok1 := c.net.at[r.From.Point]
	to, ok2 := c.net.at[r.To.Point]
	if !ok1 || !ok2 {
		return true
	}
	dries := func(i int) bool { return behind[i] || c.net.has(i, catalog.Dries) }
	return !dries(from) || !dries(to) || !behind[from] && !behind[to]
}

// cold is the coldest zone that a line crosses, in winter.
type cold struct {
	zone *job.Zone
	temp unit.Temperature
}

// pace is how closely a line is looked at for the zones that it crosses, metres.
const pace = 0.25

// winter is the coldest zone that a run crosses: the one that it states, else
// those of the rooms on its way.
func (c *Case) winter(r *job.Run) cold {
	z := c.idx.ZoneOf(r)
	got := cold{z, c.job.ClimateOf(z).Winter}
	if r.Zone != "" || len(c.job.Building.Zones) < 2 {
		return got
	}
	line := c.idx.Centreline(r)
	for s, long := 0.0, geom.Length(line); s <= long; s += pace {
		at, _, ok := geom.OnPath(line, s)
		if !ok {
			break
		}
		if z := c.idx.ZoneAt(at); z != nil {
			if t := c.job.ClimateOf(z).Winter; t < got.temp {
				got = cold{z, t}
			}
		}
	}
	return got
}

// dryPoints marks where no water can fall out: behind dryers whose dew point
// lies below the coldest line behind them by the margin of the rules.
func (c *Case) dryPoints() []bool {
	dry := make([]bool, len(c.net.spots))
	margin := float64(c.job.RuleFreezeMargin().Value)
	var points []unit.Temperature
	for _, i := range c.net.with(catalog.Dries) {
		if d, ok := c.dewPoint(&c.net.spots[i].point.Part); ok && !slices.Contains(points, d) {
			points = append(points, d)
		}
	}
	for _, limit := range points {
		behind := c.net.behindAny(func(i int) bool {
			d, ok := c.dewPoint(&c.net.spots[i].point.Part)
			return c.net.has(i, catalog.Dries) && ok && d <= limit
		})
		if float64(limit) > float64(c.coldest(behind))-margin {
			continue
		}
		for i := range dry {
			dry[i] = dry[i] || behind[i]
		}
	}
	return dry
}
