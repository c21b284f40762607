package solid

import (
	"fmt"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// Formulas lists the formulas of this package for the materials given.
func Formulas(materials []Material) []formula.Formula {
	return []formula.Formula{
		GrowthFormula(materials), OffsetFormula(materials), HeldFormula(materials), CornerFormula(materials),
	}
}

// GrowthFormula is `growth`: [Growth] and [Leg] asked alone. The materials
// come from whoever owns their figures; none are needed where alpha is given.
func GrowthFormula(materials []Material) formula.Formula {
	words := names(materials)
	return formula.Formula{
		Name:  "growth",
		Title: "growth of a line and the leg that takes it up",
		Law:   "growth = alpha length dt; leg = sqrt(3 E od growth/stress) or leg_constant sqrt(od growth)",
		Range: "mean coefficient, elastic; a few per cent between -20 and 80 °C",
		Cite: []cite.Ref{
			{Source: "leg-formula", How: cite.Read},
			{Source: "copper-handbook", Place: "Table 14.8", How: cite.Read},
		},
		In: []formula.Symbol{
			{Key: "material", Kind: unit.KindWord, Words: "material, for alpha and E", Choices: words, Optional: true},
			{Key: "alpha", Kind: unit.KindExpansion, Words: "expansion coefficient, in place of the material's", Optional: true},
			{Key: "length", Kind: unit.KindLength, Words: "length between fixed points"},
			{Key: "dt", Kind: unit.KindTempDiff, Words: "change of temperature"},
			{Key: "od", Kind: unit.KindLength, Words: "outside diameter", Optional: true},
			{Key: "stress", Kind: unit.KindStress, Words: "bending stress allowed", Optional: true},
			{Key: "E", Kind: unit.KindStress, Words: "modulus, in place of the material's", Optional: true},
			{Key: "leg_constant", Kind: unit.KindNumber, Words: "leg constant, in place of stress and E; the material's where neither is given", Optional: true},
		},
		Out: []formula.Symbol{
			{Key: "growth_m", Kind: unit.KindLength, Words: "growth"},
			{Key: "leg_m", Kind: unit.KindLength, Words: "leg or offset, length along the line"},
			{Key: "loop_leg_m", Kind: unit.KindLength, Words: "or each leg of a square loop in the middle"},
			{Key: "loop_radius_m", Kind: unit.KindLength, Words: "or the radius of a coil loop"},
		},
		Eval: func(v formula.Values) (formula.Values, error) { return evalGrowth(materials, v) },
	}
}

func evalGrowth(materials []Material, v formula.Values) (formula.Values, error) {
	m, err := materialOf(materials, v)
	if err != nil {
		return formula.Values{}, err
	}
	growth, err := Growth(m.Alpha, unit.Length(v.Num["length"]), unit.TempDiff(v.Num["dt"]))
	if err != nil {
		return formula.Values{}, err
	}
	out := formula.Num(map[string]float64{"growth_m": float64(growth)})
	// Without the means for a leg the growth is still an answer.
	constant := v.Num["leg_constant"]
	switch {
	case !v.Has("od"):
		return out, nil
	case v.Has("leg_constant"):
	case v.Has("stress") && (m.Modulus != 0 || v.Has("E")):
		if constant, err = LegConstant(m.Modulus, unit.Stress(v.Num["stress"])); err != nil {
			return formula.Values{}, err
		}
	case !v.Has("stress") && !v.Has("E") && m.Leg > 0:
		constant = m.Leg
	default:
		return out, nil
	}
	leg, err := Leg(constant, unit.Length(v.Num["od"]), growth)
	if err != nil {
		return formula.Values{}, err
	}
	out.Put("leg_m", float64(leg))
	out.Put("loop_leg_m", float64(LoopLeg(leg)))
	out.Put("loop_radius_m", float64(LoopRadius(leg)))
	return out, nil
}

// materialOf takes the named material, and what is stated in place of its figures.
func materialOf(materials []Material, v formula.Values) (Material, error) {
	var m Material
	if name := v.Word["material"]; name != "" {
		found := false
		for _, have := range materials {
			if have.Name == name {
				m, found = have, true
			}
		}
		if !found && !v.Has("alpha") {
			return m, fmt.Errorf("material %q: not known here, wanted alpha", name)
		}
	} else if !v.Has("alpha") {
		return m, fmt.Errorf("material or alpha: wanted one of them")
	}
	m.Alpha = unit.Expansion(v.Get("alpha", float64(m.Alpha)))
	m.Modulus = unit.Stress(v.Get("E", float64(m.Modulus)))
	return m, nil
}
