package check

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/internal/answer/water"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var waterClassMissed = Check{
	Code:   "water-class-missed",
	Title:  "air dry enough for each tool",
	Why:    "Water washes the oil out of tools, spots paint and clumps blasting grit.",
	Limit:  "the water class of ISO 8573-1 that the job states for the tool, else that of its class of tool, in the cold and the warm season at likely figures",
	Law:    "moist air from intake to outlet",
	Source: []cite.Ref{{Source: "iso8573-1", Place: "water classes", How: cite.Recalled}},
	Run:    runWaterClassMissed,
}

// wetCause is outlets that are too wet for one reason.
type wetCause struct {
	dryer job.ID // "": nothing dries the air there
	all   []missed
}

func runWaterClassMissed(ctx context.Context, c *Case) error {
	a, err := c.wet(ctx)
	if err != nil || a == nil {
		return err
	}
	over := overloadedDryers(a)
	var causes []wetCause
	for _, m := range missedClasses(a) {
		o := c.idx.Outlet(m.outlet.ID)
		if o == nil {
			continue
		}
		dried, by := c.driedBy(o)
		if slices.ContainsFunc(over, func(x overloaded) bool { return slices.Contains(by, x.dryer.ID) }) {
			continue // told by dryer-overloaded
		}
		cause := job.ID("")
		if dried && len(by) > 0 {
			cause = by[len(by)-1]
		}
		i := slices.IndexFunc(causes, func(w wetCause) bool { return w.dryer == cause })
		if i < 0 {
			i = len(causes)
			causes = append(causes, wetCause{dryer: cause})
		}
		causes[i].all = append(causes[i].all, m)
	}
	for i := range causes {
		if err := c.reportWet(ctx, a, &causes[i]); err != nil {
			return err
		}
	}
	return nil
}

// reportWet tells of the outlets of one cause, the wettest first.
func (c *Case) reportWet(ctx context.Context, a *water.Answer, w *wetCause) error {
	slices.SortStableFunc(w.all, func(x, y missed) int {
		switch {
		case wetter(x.outlet.Class, y.outlet.Class):
			return -1
		case wetter(y.outlet.Class, x.outlet.Class):
			return 1
		}
		return cmp.Compare(dewAt(&y.outlet), dewAt(&x.outlet))
	})
	worst := &w.all[0]
	f := job.Finding{Severity: job.Caution}
	var outlets, tools []job.ID
	wanted := "9"
	for _, m := range w.all {
		outlets = append(outlets, m.outlet.ID)
		for _, n := range m.needs {
			tools = append(tools, n.Tool)
			wanted = min(wanted, n.Class)
			if !n.Supposed {
				f.Severity = job.Fault
			}
		}
	}
	tools = unique(tools)
	f.Where = slices.Concat(outlets, tools)
	state := "the air is not dried"
	if w.dryer != "" {
		state = "behind " + c.named(w.dryer) + " the air is not dry enough"
		f.Where = append(f.Where, w.dryer)
	} else if len(a.Seasons) > 0 && len(a.Seasons[0].Dryers) > 0 {
		state = "no dryer stands before some outlets"
	}
	dew := ""
	if worst.outlet.Dew != nil {
		dew = fmt.Sprintf(" (dew point %s under pressure)", c.temp(*worst.outlet.Dew))
		f.Figure = figure("dew_point_K", float64(dewAt(&worst.outlet)))
	}
	f.Title = sentence("%s: at %s it is as wet as water class %s in the %s season%s, and %s class %s.",
		state, c.names(outlets), worst.outlet.Class, worst.season, dew, c.want(tools, f.Severity), wanted)
	cures, err := c.dryers(ctx, a, outlets, w.dryer)
	if err != nil {
		return err
	}
	f.Cures = cures
	c.report(f)
	return nil
}

// want is who wants a class: by the job's word, or as its class of tool usually does.
func (c *Case) want(tools []job.ID, s job.Severity) string {
	verb := " want"
	if len(tools) == 1 {
		verb = " wants"
	}
	if s != job.Fault {
		verb = strings.Replace(verb, " want", " usually want", 1)
	}
	return c.names(tools) + verb
}

// mostAtOutlets is up to how many outlets a dryer at the outlet is thought of.
const mostAtOutlets = 1

// dryers proposes a dryer at the plant where none dries all air, else at the outlet.
func (c *Case) dryers(ctx context.Context, a *water.Answer, outlets []job.ID, dryer job.ID) ([]job.Cure, error) {
	w := cure.Wet{
		Enough: func(after *water.Answer) bool {
			return !slices.ContainsFunc(missedClasses(after), func(m missed) bool { return slices.Contains(outlets, m.outlet.ID) }) &&
				len(overloadedDryers(after)) <= len(overloadedDryers(a))
		},
		Told: func(after *water.Answer) string {
			return "the air is then of class " + wettest(after, outlets) + " there"
		},
	}
	var out []job.Cure
	if len(outlets) <= mostAtOutlets {
		found, err := c.bench.DryerAt(ctx, outlets[0], w)
		if err != nil {
			return nil, err
		}
		out = append(out, found...)
	}
	if dryer != "" {
		found, err := c.bench.DrierDryer(ctx, dryer, w, a.Mean)
		return append(out, found...), err
	}
	if len(out) > 0 && len(a.Seasons[0].Dryers) > 0 {
		return out, nil // a second dryer for all the air, for the sake of one outlet
	}
	found, err := c.bench.CutInDryer(ctx, w, a.Mean)
	return append(out, found...), err
}

// wettest is the wettest class at some outlets in any season.
func wettest(a *water.Answer, outlets []job.ID) string {
	worst := "1"
	for _, s := range a.Seasons {
		for _, o := range s.Outlets {
			if slices.Contains(outlets, o.ID) && wetter(o.Class, worst) {
				worst = o.Class
			}
		}
	}
	return worst
}
