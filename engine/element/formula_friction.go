package element

import (
	"fmt"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// Formulas lists the formulas of this package, in the order in which they are told.
func Formulas() []formula.Formula {
	return []formula.Formula{PipeFormula(), FrictionFormula(), CouplerFormula(), LeakFormula()}
}

// FrictionFormula is `friction`: [Friction] asked alone.
func FrictionFormula() formula.Formula {
	return formula.Formula{
		Name:  "friction",
		Title: "friction factor of a round line",
		Law:   "1/sqrt(f) = -2 log10(rr/3.7 + 2.51/(re sqrt(f))) from re = 4000; f = 64/re up to 2000; a monotone join between",
		Range: "Darcy's f, four times Fanning's; rr up to 0.05; from 2000 to 4000 no law is sure and the join is a choice",
		Cite:  []cite.Ref{{Source: "colebrook", How: cite.Computed}},
		In: []formula.Symbol{
			{Key: "re", Kind: unit.KindNumber, Words: "Reynolds number"},
			{Key: "rr", Kind: unit.KindRatio, Words: "relative roughness: roughness over bore", Default: new(0.0)},
		},
		Out: []formula.Symbol{
			{Key: "darcy_friction_factor", Kind: unit.KindNumber, Words: "friction factor"},
			{Key: "regime", Kind: unit.KindWord, Words: "kind of flow"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			re, rr := v.Num["re"], v.Num["rr"]
			if err := positive("re", re); err != nil {
				return formula.Values{}, err
			}
			if err := within("rr", rr, 0, 0.05); err != nil {
				return formula.Values{}, err
			}
			out := formula.Num(map[string]float64{"darcy_friction_factor": Friction(re, rr)})
			out.PutWord("regime", regime(re))
			return out, nil
		},
	}
}

// regime names the kind of flow at a Reynolds number.
func regime(re float64) string {
	switch {
	case re <= laminarEnd:
		return "laminar"
	case re < turbulentStart:
		return "between laminar and turbulent"
	}
	return "turbulent"
}

// either says that exactly one of two inputs is wanted.
func either(v formula.Values, a, b string) error {
	switch {
	case v.Has(a) && v.Has(b):
		return fmt.Errorf("%s and %s: wanted one of them, the other follows", a, b)
	case !v.Has(a) && !v.Has(b):
		return fmt.Errorf("%s or %s is missing: wanted one of them", a, b)
	}
	return nil
}
