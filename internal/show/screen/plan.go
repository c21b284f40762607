package screen

import (
	"context"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/draw"
)

// Plan draws the shop from above for a sheet of the given size in mm.
func (s *Shop) Plan(ctx context.Context, ask Ask, width, height float64) (Plan, error) {
	return s.View(ctx, ask, "plan", "", width, height)
}

// View draws the shop in one of the ways that Head lists, for a sheet of the given
// size in mm. A room is asked for by drawings of one room alone; "" is the one with
// most lines. A view or a room that is not there is a *NotThere.
func (s *Shop) View(ctx context.Context, ask Ask, view string, room job.ID, width, height float64) (Plan, error) {
	sight, ok := draw.SightOf(view)
	if !ok {
		return Plan{}, &NotThere{view}
	}
	if room != "" && s.index.Room(room) == nil {
		return Plan{}, &NotThere{string(room)}
	}
	v, _, err := s.glance(ctx, ask, true)
	if err != nil {
		return Plan{}, err
	}
	return s.drawn(v, s.given(v), sight, room, width, height), nil
}

// drawn makes a drawing of what was looked at.
func (s *Shop) drawn(v *view, given draw.Given, sight draw.Sight, room job.ID, width, height float64) Plan {
	sheet := draw.Sheet{Width: width, Height: height, Units: v.ask.System, Env: v.env}
	out := Plan{View: sight.Draw(given, sheet, room), Set: v.ask.Set, Case: string(v.ask.Case)}
	out.Sentence = s.planSentence(v)
	return out
}

// given is what a drawing is made from: pressures, readings and words for hovering.
func (s *Shop) given(v *view) draw.Given {
	given := draw.Given{
		Index: s.index, Shelf: s.study.Catalog(),
		Ends: map[job.ID][2]unit.GaugePressure{}, Dials: map[job.ID]draw.Dial{}, Tips: map[job.ID]string{},
	}
	if v.state != nil {
		s.fillLines(&given, v)
		given.Source = v.receiver()
	}
	for _, r := range s.readings(v) {
		given.Dials[r.outlet.ID] = draw.Dial{Flowing: r.flowing, Least: r.least, Short: r.state == Short, InUse: r.inUse}
		given.Tips[r.outlet.ID] = "outlet " + r.mark + ", " + r.outlet.Name + ": " + s.readingWords(v, r)
	}
	return given
}

// receiver is the highest pressure that a receiver stands at.
func (v *view) receiver() unit.GaugePressure {
	top := unit.GaugePressure(0)
	for _, src := range v.state.Sources {
		top = max(top, src.Pressure)
	}
	return top
}

// fillLines takes the pressures at the ends of every run and words for hovering.
func (s *Shop) fillLines(given *draw.Given, v *view) {
	for _, e := range v.state.Elements {
		if e.Thing != model.ThingLine || !e.Known {
			continue
		}
		ends := [2]unit.GaugePressure{e.In, e.Out}
		if e.Flow < 0 {
			ends[0], ends[1] = ends[1], ends[0]
		}
		given.Ends[e.ID] = ends
		given.Tips[e.ID] = lineTip(v, e)
	}
}

func lineTip(v *view, e flow.Element) string {
	text := e.Words + ": " + v.text(unit.KindGauge, float64(e.In))
	if still(e.Flow) {
		return text + ", no air moves"
	}
	return text + " to " + v.text(unit.KindGauge, float64(e.Out)) + ", " + v.plain(unit.KindFlow, math.Abs(float64(e.Flow))) +
		", " + v.plain(unit.KindVelocity, float64(max(e.VIn, e.VOut)))
}

// still says that what the solver leaves as flow is none: under a cubic centimetre a minute.
func still(q unit.FreeAir) bool { return math.Abs(float64(q)) < 1e-6/60 }

func (s *Shop) planSentence(v *view) string {
	if v.state == nil {
		return "No tool is used at an outlet yet, so there are no pressures to show."
	}
	text := "Running: " + or(s.runningWords(v.set.Running, ""), "nothing") + "."
	if v.set.Why == demand.Then {
		return text + " A moment of a working day: the receiver stands at " + v.text(unit.KindGauge, float64(v.receiver())) + "; filters count as loaded."
	}
	if v.ask.Case == model.CutOut {
		return text + " The compressor has just cut out; filters count as clean."
	}
	return text + " The compressor has just cut in; filters count as loaded."
}
