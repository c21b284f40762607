package screen

import (
	"math"
	"strings"

	"dropleg/engine/element"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// notKnown is the plausible range of a figure for which nobody has one.
const notKnown = "not known"

// from makes an origin; its range is not known until one is set.
func from(name, law string, inputs ...string) *Origin {
	return &Origin{Name: name, Law: law, Inputs: nonNil(inputs), Sources: []string{}, Range: notKnown}
}

// stated is the origin of what a person wrote.
func stated() *Origin { return from("Stated", "as it stands in the job") }

// counted is the origin of what was counted off the drawing.
func counted(what string) *Origin { return from("Counted", what) }

// between words a range; one without width is none.
func (v *view) between(k unit.Kind, low, high float64) string {
	switch {
	case math.IsInf(high, 1) && !math.IsInf(low, 0):
		return "from " + v.plain(k, low) + "; with its figures at their worst it could not pass this much air"
	case !(high > low) || math.IsInf(low, 0):
		return notKnown
	}
	return v.plain(k, low) + " to " + v.plain(k, high)
}

// origin tells what the pressure at the end of a way rests on: the law of the
// element that takes most, with that element's figures, and how many more there are.
func (s *Shop) origin(v *view, t *flow.Tool) *Origin {
	at := -1
	for i := range t.Path {
		if at < 0 || t.Path[i].Loss > t.Path[at].Loss {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	p := t.Path[at]
	o := s.lossOrigin(v, v.model.Elements()[p.Element], passing{p.In, p.Out, p.Flow})
	o.Inputs = append([]string{"takes most: " + p.Words}, o.Inputs...)
	if n := len(t.Path) - 1; n > 0 {
		o.Inputs = append(o.Inputs, "and "+plural(n, "more element", "more elements")+" in series, all solved at once with every running tool")
	}
	o.Range = notKnown
	if t.Range != nil {
		o.Range = v.between(unit.KindGauge, float64(t.Range.Low), float64(t.Range.High))
	}
	return o
}

// passing is the air through one element: pressures upstream and downstream, and a
// flow positive from the element's first end to its second.
type passing struct {
	in, out unit.GaugePressure
	flow    unit.FreeAir
}

// lossOrigin is the law by which an element takes pressure, and its figures.
func (s *Shop) lossOrigin(v *view, e model.Element, air passing) *Origin {
	o := from("Loss stated at a rated flow and pressure", "dp grows with the square of the mass flow and falls with the density of the air")
	if f, ok := s.lawOf(e); ok {
		o = lawOrigin(f)
	}
	input := func(words, figure string) { o.Inputs = append(o.Inputs, words+" "+figure) }
	if e.Length > 0 {
		input("length L", v.plain(unit.KindLength, float64(e.Length)))
	}
	if e.Bore > 0 {
		input("bore D", v.plain(unit.KindLength, float64(e.Bore)))
	}
	if e.K > 0 {
		input("loss coefficient k", v.figure(job.Figure{Value: e.K}))
	}
	input("flow", v.plain(unit.KindFlow, math.Abs(float64(air.flow))))
	input("pressure in", v.plain(unit.KindGauge, float64(max(air.in, air.out))))
	for _, a := range v.model.Assumptions() {
		// A hose shares its id with the couplers at its ends; they have a law of their own.
		if a.ID != e.ID || e.Length > 0 && strings.HasPrefix(a.Key, "C_") {
			continue
		}
		input(a.Words+":", v.assumed(a))
		if a.Ref.Source != "" {
			o.Sources = addOnce(o.Sources, cited(a.Ref))
		}
	}
	loaded := v.ask.Case != model.CutOut
	if least, most, ok := v.model.LossRange(e.Index, max(air.in, air.out), air.flow, loaded); ok && !still(air.flow) {
		o.Range = v.between(unit.KindPressureDiff, float64(least), float64(most))
	}
	return o
}

// assumed words a figure that the job does not state, with its range.
func (v *view) assumed(a model.Assumption) string {
	text := v.figure(job.Figure{Key: a.Key, Value: a.Value})
	if a.High > a.Low {
		text += " (" + v.figure(job.Figure{Key: a.Key, Value: a.Low}) + " to " + v.figure(job.Figure{Key: a.Key, Value: a.High}) + ")"
	}
	return text
}

// lawOrigin is a formula as `calc` tells it, without inputs.
func lawOrigin(f formula.Formula) *Origin {
	o := from(upper(f.Title), f.Law)
	o.Holds = f.Range
	for _, c := range f.Cite {
		o.Sources = addOnce(o.Sources, cited(c))
	}
	return o
}

// lawOf is the formula of an element, told as `calc` tells it: friction along a
// bore for lines and hoses, and the same with k alone for fittings; conductance
// for couplers and what else is rated by it. ok is false for rated losses.
func (s *Shop) lawOf(e model.Element) (formula.Formula, bool) {
	switch {
	case e.Length > 0 || e.K > 0:
		return element.PipeFormula(), true
	case e.Thing == model.ThingCoupler:
		return element.CouplerFormula(), true
	}
	if t, ok := s.study.Catalog().Treat(e.Item); ok && t.C > 0 {
		return element.CouplerFormula(), true
	}
	return formula.Formula{}, false
}

// networkOrigin is what a pressure or flow rests on that is no element's alone.
func (s *Shop) networkOrigin(v *view, low, high float64) *Origin {
	o := from("Air network at rest",
		"at every place the air that arrives leaves again; along every element pressure falls by its law; solved together until both hold everywhere")
	if v.set != nil {
		o.Inputs = append(o.Inputs, "running: "+s.runningWords(v.set.Running, ""))
	}
	if v.state != nil {
		for _, src := range v.state.Sources {
			o.Inputs = append(o.Inputs, "held at "+s.named(src.ID)+": "+v.plain(unit.KindGauge, float64(src.Pressure)))
		}
	}
	o.Inputs = append(o.Inputs, plural(len(v.model.Elements()), "element", "elements")+", each by the law of its catalogue row")
	o.Range = v.between(unit.KindGauge, low, high)
	return o
}
