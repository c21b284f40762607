package check

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var lineMayFreeze = Check{
	Code:   "line-may-freeze",
	Title:  "no line with wet air through a zone that freezes, and no water that gathers there",
	Why:    "Water gathers at its low points, freezes and shuts the line: dry the air before it, warm the line, or let it fall to a drain.",
	Limit:  "0 °C in winter for a line before the dryer or without one, unless its air stays warm while the shop works and its water runs off; behind a dryer also its dew point and the margin of the rules",
	Law:    "moist air from intake to outlet, in the cold season",
	Source: custom("a line through an unheated space freezes at its low points"),
	Run:    runLineMayFreeze,
}

// frozen is the lines that may freeze in one zone, and where water gathers there.
type frozen struct {
	cold
	runs    []*job.Run
	wet     bool // one of them lies before every dryer
	gathers []water.Gather
}

// freezing is 0 °C.
const freezing = unit.Temperature(273.15)

func runLineMayFreeze(ctx context.Context, c *Case) error {
	a, err := c.wet(ctx)
	if err != nil {
		return err
	}
	zones := c.frozen(coldSeason(a))
	for i := range zones {
		if err := c.reportFrozen(ctx, &zones[i]); err != nil {
			return err
		}
	}
	return nil
}

// frozen is what may freeze in a cold season, by zone.
func (c *Case) frozen(season *water.Season) []frozen {
	dry, behind := c.dryPoints(), c.net.behind(catalog.Dries)
	var zones []frozen
	in := func(at cold) *frozen {
		k := slices.IndexFunc(zones, func(z frozen) bool { return z.zone == at.zone })
		if k < 0 {
			k, zones = len(zones), append(zones, frozen{cold: at})
		}
		return &zones[k]
	}
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		at := c.winter(r)
		if at.zone == nil || at.temp >= freezing || r.State == "stub" || !c.wetRun(r, dry) || staysOpen(season, r.ID) {
			continue
		}
		z := in(at)
		z.runs = append(z.runs, r)
		z.wet = z.wet || c.wetRun(r, behind)
	}
	for _, g := range season.Gathered {
		if at := c.winterAt(g.ID); g.Freezes && at.zone != nil && at.temp < freezing && g.Likely >= aFewDrops {
			z := in(at)
			z.gathers, z.wet = append(z.gathers, g), true
		}
	}
	return zones
}

// aFewDrops is water a day too little to be told, L.
const aFewDrops = 0.005

// coldSeason is the cold season of an answer; one of nothing where there is none.
func coldSeason(a *water.Answer) *water.Season {
	if a != nil {
		for i := range a.Seasons {
			if a.Seasons[i].Name == "cold" {
				return &a.Seasons[i]
			}
		}
	}
	return &water.Season{}
}

// staysOpen: a cold line in which no ice grows. Either its air is warm from end to end
// while the shop works and no water stays in it, as next to the compressor, or nothing
// flows in it and no water falls there.
func staysOpen(s *water.Season, run job.ID) bool {
	i := slices.IndexFunc(s.Lines, func(l water.Line) bool { return l.ID == run })
	if i < 0 {
		return false
	}
	l := &s.Lines[i]
	if l.Litres.High > 0 {
		k := slices.IndexFunc(s.Falls, func(f water.Fall) bool { return f.ID == run })
		if k >= 0 && s.Falls[k].How != water.ByDrain {
			return false
		}
	}
	idle := l.In == l.Room && l.Out == l.Room && l.Litres.High == 0
	return idle || l.Out > freezing
}

// winterAt is the zone about a point, a line or an outlet, in winter.
func (c *Case) winterAt(id job.ID) cold {
	if r := c.idx.Run(id); r != nil {
		return c.winter(r)
	}
	if at := c.place(id); at != nil {
		z := c.idx.ZoneAt(*at)
		return cold{z, c.job.ClimateOf(z).Winter}
	}
	return cold{}
}

// reportFrozen tells of one zone: its lines, the longest first, and its water.
func (c *Case) reportFrozen(ctx context.Context, z *frozen) error {
	long := func(r *job.Run) unit.Length {
		l, _ := c.idx.LengthOf(r)
		return l
	}
	slices.SortStableFunc(z.runs, func(a, b *job.Run) int { return cmp.Compare(long(b), long(a)) })
	slices.SortStableFunc(z.gathers, func(a, b water.Gather) int { return cmp.Compare(b.Likely, a.Likely) })
	f := job.Finding{
		Severity: job.Caution,
		Figure:   figure("temperature_K", float64(z.temp)), Limit: figure("temperature_K", float64(freezing)),
	}
	for _, r := range z.runs {
		f.Where = append(f.Where, r.ID)
	}
	for _, g := range z.gathers {
		f.Where = append(f.Where, g.ID)
	}
	f.Where = unique(f.Where)
	zone := z.zone.Name
	if zone == "" {
		zone = tail(z.zone.ID)
	}
	if len(z.runs) == 0 {
		f.Title = sentence("water freezes where it gathers in %s, at %s in winter: %s.", cure.Within(zone), c.temp(z.temp), c.gathered(z.gathers))
		f.Why = "A drain that freezes lets no water out, and a pocket of ice grows: dry the air, warm the place, or heat the drain."
		return c.reportThaw(ctx, z, f)
	}
	others := ""
	if n := len(z.runs) - 1; n > 0 {
		others = " and " + plural(n, "short line") + " there"
		if long(z.runs[1]) > 1 {
			others = " and " + plural(n, "other line") + " there"
		}
	}
	state := "with air that is not dried"
	if !z.wet {
		state = "with air that is not dried far enough for it"
	}
	gathers := ""
	if len(z.gathers) > 0 {
		gathers = "; water gathers there, " + c.gathered(z.gathers)
	}
	f.Title = sentence("%s%s may freeze: %s in winter in %s, %s%s.", c.named(z.runs[0].ID), others, c.temp(z.temp), cure.Within(zone), state, gathers)
	return c.reportThaw(ctx, z, f)
}

// gathered is the water of a cold day by place, the most first.
func (c *Case) gathered(all []water.Gather) string {
	var words []string
	for _, g := range all {
		at := c.named(g.ID)
		if g.How == water.ByDrain {
			at += " before its drain"
		}
		words = append(words, c.system.Text(unit.KindVolume, g.Likely/1e3, c.env)+" a day at "+at)
	}
	return listed(words)
}
