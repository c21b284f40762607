package check

import (
	"context"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// wet is the water of the air through a year; nil where it cannot be told.
func (c *Case) wet(ctx context.Context) (*water.Answer, error) {
	a, err := c.study.Wet(ctx)
	if err != nil || a.Untold != "" {
		return nil, err
	}
	return a, nil
}

// overloaded is the dryers that more air comes through than they are able to take, each
// in the season in which it is worst.
type overloaded struct {
	season string
	dryer  water.Dryer
}

func overloadedDryers(a *water.Answer) []overloaded {
	var out []overloaded
	at := map[job.ID]int{}
	over := func(d water.Dryer) float64 { return float64(d.Flow / d.Able) }
	for _, s := range a.Seasons {
		for _, d := range s.Dryers {
			if d.Untaking || d.Able <= 0 || d.Rated <= 0 || over(d) <= 1 {
				continue
			}
			i, seen := at[d.ID]
			switch {
			case !seen:
				at[d.ID] = len(out)
				out = append(out, overloaded{s.Name, d})
			case over(d) > over(out[i].dryer):
				out[i] = overloaded{s.Name, d}
			}
		}
	}
	return out
}

// missed is an outlet whose air is too wet for a tool there, in its worse season.
type missed struct {
	season string
	outlet water.Outlet
	needs  []water.Need // not met
}

// wetter says whether a class is wetter than another: X is beyond all figures.
func wetter(a, b string) bool { return a != b && (a == "X" || b != "X" && a > b) }

// missedClasses lists the outlets with needs that are not met, as the job has them.
func missedClasses(a *water.Answer) []missed {
	var out []missed
	at := map[job.ID]int{}
	for _, s := range a.Seasons {
		for _, o := range s.Outlets {
			var needs []water.Need
			for _, n := range o.Needs {
				if !n.Met {
					needs = append(needs, n)
				}
			}
			if len(needs) == 0 || o.Idle {
				continue
			}
			i, seen := at[o.ID]
			switch {
			case !seen:
				at[o.ID] = len(out)
				out = append(out, missed{s.Name, o, needs})
			case wetter(o.Class, out[i].outlet.Class) || o.Class == out[i].outlet.Class && dewAt(&o) > dewAt(&out[i].outlet):
				out[i] = missed{s.Name, o, needs}
			}
		}
	}
	return out
}

// driedBy is the dryers whose air comes to an outlet and none other; hung is one that
// hangs there.
func (c *Case) driedBy(o *job.Outlet) (dried bool, by []job.ID) {
	for i := range o.Hang {
		if c.net.hung(&o.Hang[i]).Has(catalog.Dries) {
			dried = true
			if o.Hang[i].ID != "" {
				by = append(by, o.Hang[i].ID)
			}
		}
	}
	spot, ok := c.net.at[o.Point]
	if !ok {
		return dried, by
	}
	for _, d := range c.net.with(catalog.Dries) {
		if c.net.behindAny(func(i int) bool { return i == d })[spot] {
			dried, by = true, append(by, c.net.spots[d].point.ID)
		}
	}
	return dried || c.net.behind(catalog.Dries)[spot], by
}

// dewAt is the dew point at an outlet, where it has one.
func dewAt(o *water.Outlet) unit.Temperature {
	if o.Dew == nil {
		return 0
	}
	return *o.Dew
}
