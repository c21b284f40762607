package check

import (
	"context"
	"slices"

	"dropleg/engine/cite"
	"dropleg/internal/answer/water"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var dryerOverloaded = Check{
	Code:   "dryer-overloaded",
	Title:  "no dryer with more air than it is able to take",
	Why:    "A dryer that more air comes through, or hotter air, than it is made for lets the rest of the water pass.",
	Limit:  "what the dryer is able to take at the inlet temperature and pressure here, against the flow while it works: that of the compressors, or of the tools but for 1 % of the time",
	Law:    "dryer capacity by inlet temperature and pressure",
	Source: []cite.Ref{{Source: "common-practice", Place: "correction by inlet temperature and pressure as published tables have it in common", How: cite.Recalled}},
	Run:    runDryerOverloaded,
}

func runDryerOverloaded(ctx context.Context, c *Case) error {
	a, err := c.wet(ctx)
	if err != nil || a == nil {
		return err
	}
	for _, o := range overloadedDryers(a) {
		if err := c.reportOverload(ctx, a, o); err != nil {
			return err
		}
	}
	return nil
}

func (c *Case) reportOverload(ctx context.Context, a *water.Answer, o overloaded) error {
	d := &o.dryer
	f := job.Finding{
		Severity: job.Caution, Where: []job.ID{d.ID},
		Figure: figure("free_air_m3_s", float64(d.Flow)), Limit: figure("free_air_m3_s", float64(d.Able)),
	}
	leaves := ""
	if d.Out != nil {
		leaves = "; it leaves a dew point of " + c.temp(*d.Out) + " instead of " + c.temp(d.Stated)
	}
	var tools []job.ID
	for _, m := range missedClasses(a) {
		at := c.idx.Outlet(m.outlet.ID)
		if at == nil {
			continue
		}
		if _, by := c.driedBy(at); !slices.Contains(by, d.ID) {
			continue
		}
		f.Where = append(f.Where, m.outlet.ID)
		for _, n := range m.needs {
			tools = append(tools, n.Tool)
			if !n.Supposed {
				f.Severity = job.Fault
			}
		}
	}
	if tools = unique(tools); len(tools) > 0 {
		leaves += ", too wet for " + c.names(tools)
		f.Where = append(f.Where, tools...)
	}
	f.Title = sentence("%s is overloaded in the %s season: %s %s through it, and with air of %s it is able to take %s%s.",
		c.named(d.ID), o.season, sends(d.Sees), c.air(d.Flow), c.temp(d.Inlet), c.air(d.Able), leaves)
	var err error
	if f.Cures, err = c.relieve(ctx, o); err != nil {
		return err
	}
	c.report(f)
	return nil
}

// relieve finds what a dryer is not overloaded with: a larger one, or another place.
func (c *Case) relieve(ctx context.Context, o overloaded) ([]job.Cure, error) {
	id := o.dryer.ID
	w := cure.Wet{
		Enough: func(after *water.Answer) bool {
			return !slices.ContainsFunc(overloadedDryers(after), func(x overloaded) bool { return x.dryer.ID == id })
		},
		Told: func(after *water.Answer) string { return c.ableThen(after, id, o.season) },
	}
	larger, err := c.bench.LargerDryer(ctx, id, w)
	if err != nil {
		return nil, err
	}
	moved, err := c.bench.MoveDryer(ctx, id, w)
	return append(larger, moved...), err
}

// ableThen is what a dryer is able to take in a season, in words.
func (c *Case) ableThen(a *water.Answer, dryer job.ID, season string) string {
	for _, s := range a.Seasons {
		for _, d := range s.Dryers {
			if s.Name == season && d.ID == dryer {
				return "able to take " + c.air(d.Able) + " there"
			}
		}
	}
	return "not in the stream then"
}

// sends says by whose air a dryer is loaded.
func sends(sees string) string {
	if sees == "tools" {
		return "the tools draw"
	}
	return "the compressors send"
}
