package find

import (
	"context"
	"fmt"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// supply says what the tools that were complained of, or that ran at the last
// reading, draw without a break, where that is more than the compressor gives.
func (f *Finder) supply(ctx context.Context) string {
	set := f.spoken()
	if len(set) == 0 || f.rig.stock.supply <= 0 {
		return ""
	}
	mo, err := f.rig.at(ctx, set, f.rig.middle())
	if err != nil || mo.sound == nil {
		return ""
	}
	drawn := 0.0
	for _, p := range mo.pairs {
		if f.rig.tools[p] == nil {
			drawn += f.rig.taken[p]
			continue
		}
		drawn += mo.sound.Taken[f.rig.m.Pairs()[p].Node]
	}
	if drawn < f.rig.stock.supply {
		return ""
	}
	text := func(m float64) string {
		return f.text(unit.KindFlow, float64(air.FreeAir(unit.MassFlow(m))))
	}
	takes := "takes"
	if len(set) > 1 {
		takes = "take"
	}
	return fmt.Sprintf("%s %s about %s by the plate while the air is on; the compressor gives %s. The receiver falls while that lasts, whatever the line is like.",
		capital(f.ran(set)), takes, text(drawn), text(f.rig.stock.supply))
}

// spoken is the set of tools that it is about.
func (f *Finder) spoken() []job.InUse {
	if f.first != nil {
		return f.first.Running
	}
	for i := len(f.read) - 1; i >= 0; i-- {
		if len(f.read[i].Running) > 0 {
			return f.read[i].Running
		}
	}
	return nil
}

// design says whether the tools ask for more than the compressor has: then the
// line is as drawn and yet weak.
func (f *Finder) design(a *Answer) string {
	for i := range f.read {
		r := &f.read[i]
		if r.Kind == Pressure && !r.Stopped && len(r.Running) > 0 && float64(r.Receiver) < f.rig.stock.cutIn-bias {
			return " The receiver stood below its cut-in: " + f.ran(r.Running) + " ask for more than the compressor has."
		}
	}
	if a.Supply != "" {
		return " " + a.Supply
	}
	return " What is missing at a tool is missing by design: see the checks."
}
