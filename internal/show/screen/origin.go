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
	return o
}

// passing is the air through one element.
type passing struct {
	in, out unit.GaugePressure
	flow    unit.FreeAir
}

// lossOrigin is the law by which an element takes pressure, and its figures.
func (s *Shop) lossOrigin(v *view, e model.Element, air passing) *Origin {
	o := &Origin{Inputs: []string{}, Sources: []string{}}
	if f, ok := s.lawOf(e); ok {
		o.Law = f.Law + " (" + f.Range + ")"
		for _, c := range f.Cite {
			o.Sources = addOnce(o.Sources, c.Text())
		}
	} else {
		o.Law = "loss stated at a rated flow and pressure, scaled: dp grows with the square of the mass flow and falls with the density"
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
	for _, a := range v.flow.Assumptions {
		// A hose shares its id with the couplers at its ends; they have a law of their own.
		if a.ID != e.ID || e.Length > 0 && strings.HasPrefix(a.Key, "C_") {
			continue
		}
		input(a.Words+":", v.figure(job.Figure{Key: a.Key, Value: a.Value}))
		if a.Ref.Source != "" {
			o.Sources = addOnce(o.Sources, a.Ref.Text())
		}
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
