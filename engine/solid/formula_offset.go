package solid

import (
	"fmt"
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

func abs(x float64) float64 { return math.Abs(x) }

// OffsetFormula is `offset`: [Leg], [LoopLeg], [LegStress] and [LegForce] asked for
// a growth that is already known.
func OffsetFormula(materials []Material) formula.Formula {
	return formula.Formula{
		Name:  "offset",
		Title: "leg, offset or loop for a growth, and what too short a leg does",
		Law:   "L and Z: leg = c sqrt(od (growth + other_growth)); U: each leg that over sqrt 2; c = leg_constant or sqrt(3 E/stress); stress = 3 E od growth/leg^2; push = 12 E I growth/leg^3",
		Range: "elastic, ends guided; the growth well under the leg",
		Cite: []cite.Ref{
			{Source: "leg-formula", How: cite.Read},
			{Source: "copper-handbook", Place: "Table 14.8", How: cite.Read},
		},
		In: append(ofMaterial(names(materials)),
			formula.Symbol{Key: "growth", Kind: unit.KindLength, Words: "growth that comes to the leg"},
			formula.Symbol{Key: "other_growth", Kind: unit.KindLength, Words: "growth from the other side of an offset", Optional: true},
			formula.Symbol{Key: "od", Kind: unit.KindLength, Words: "outside diameter"},
			formula.Symbol{Key: "leg_constant", Kind: unit.KindNumber, Words: "leg constant, in place of the material's", Optional: true},
			formula.Symbol{Key: "stress", Kind: unit.KindStress, Words: "bending stress allowed, with E in place of a leg constant", Optional: true},
			formula.Symbol{Key: "leg", Kind: unit.KindLength, Words: "leg that is there, to ask its stress", Optional: true},
			formula.Symbol{Key: "wall", Kind: unit.KindLength, Words: "thickness of the wall, to ask the push", Optional: true}),
		Out: []formula.Symbol{
			{Key: "leg_m", Kind: unit.KindLength, Words: "leg of an L or offset of a Z"},
			{Key: "loop_leg_m", Kind: unit.KindLength, Words: "or each leg of a square loop"},
			{Key: "loop_radius_m", Kind: unit.KindLength, Words: "or the radius of a coil loop"},
			{Key: "stress_Pa", Kind: unit.KindStress, Words: "bending stress in the leg that is there"},
			{Key: "push_N", Kind: unit.KindNumber, Words: "push of the leg that is there, N"},
		},
		Eval: func(v formula.Values) (formula.Values, error) { return evalOffset(materials, v) },
	}
}

func evalOffset(materials []Material, v formula.Values) (formula.Values, error) {
	var m Material
	if v.Has("material") {
		var err error
		if m, err = materialOf(materials, v); err != nil {
			return formula.Values{}, err
		}
	}
	m.Modulus = unit.Stress(v.Get("E", float64(m.Modulus)))
	growth := unit.Length(abs(v.Num["growth"]) + abs(v.Num["other_growth"]))
	od := unit.Length(v.Num["od"])
	out := formula.Num(map[string]float64{})
	constant, err := constantOf(m, v)
	if err != nil {
		return formula.Values{}, err
	}
	if constant != 0 {
		leg, err := Leg(constant, od, growth)
		if err != nil {
			return formula.Values{}, err
		}
		out.Put("leg_m", float64(leg))
		out.Put("loop_leg_m", float64(LoopLeg(leg)))
		out.Put("loop_radius_m", float64(LoopRadius(leg)))
	}
	if !v.Has("leg") || m.Modulus == 0 {
		if constant == 0 {
			return out, fmt.Errorf("leg_constant, or E with stress or leg: wanted one of them")
		}
		return out, nil
	}
	there := unit.Length(v.Num["leg"])
	stress, err := LegStress(m.Modulus, od, growth, there)
	if err != nil {
		return formula.Values{}, err
	}
	out.Put("stress_Pa", float64(stress))
	if v.Has("wall") {
		push, err := LegForce(m.Modulus, od, unit.Length(v.Num["wall"]), growth, there)
		if err != nil {
			return formula.Values{}, err
		}
		out.Put("push_N", push)
	}
	return out, nil
}

// constantOf is the leg constant stated, that of stress and modulus, or the
// material's own; 0 where nothing gives one.
func constantOf(m Material, v formula.Values) (float64, error) {
	switch {
	case v.Has("leg_constant"):
		return v.Num["leg_constant"], positive("leg constant", v.Num["leg_constant"], "")
	case v.Has("stress") && (m.Modulus != 0 || v.Has("E")):
		return LegConstant(m.Modulus, unit.Stress(v.Num["stress"]))
	}
	return m.Leg, nil
}
