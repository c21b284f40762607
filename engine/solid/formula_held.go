package solid

import (
	"errors"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// ofMaterial are the inputs by which a formula takes its material.
func ofMaterial(words []string) []formula.Symbol {
	return []formula.Symbol{
		{Key: "material", Kind: unit.KindWord, Words: "material, for alpha and E", Choices: words, Optional: true},
		{Key: "alpha", Kind: unit.KindExpansion, Words: "expansion coefficient, in place of the material's", Optional: true},
		{Key: "E", Kind: unit.KindStress, Words: "modulus, in place of the material's", Optional: true},
	}
}

func names(materials []Material) []string {
	var words []string
	for _, m := range materials {
		words = append(words, m.Name)
	}
	return words
}

// HeldFormula is `held`: [Restrained] and [Bows] asked alone.
func HeldFormula(materials []Material) formula.Formula {
	return formula.Formula{
		Name:  "held",
		Title: "stress in a line that may not grow, and its push on its fixed points",
		Law:   "stress = E alpha dt; push = stress pi (od - wall) wall; bows at pi^2 E I / span^2",
		Range: "mean coefficient, elastic, a straight line; a slender one bows between its supports before it pushes as hard",
		Cite: []cite.Ref{
			{Source: "b31.9", Place: "table 919.3.1, the figures of the materials", How: cite.Read},
			{Source: "materials-text", Place: "law of elasticity, a slender column", How: cite.Computed},
		},
		In: append(ofMaterial(names(materials)),
			formula.Symbol{Key: "dt", Kind: unit.KindTempDiff, Words: "change of temperature"},
			formula.Symbol{Key: "od", Kind: unit.KindLength, Words: "outside diameter"},
			formula.Symbol{Key: "wall", Kind: unit.KindLength, Words: "thickness of the wall"},
			formula.Symbol{Key: "span", Kind: unit.KindLength, Words: "distance between supports", Optional: true}),
		Out: []formula.Symbol{
			{Key: "stress_Pa", Kind: unit.KindStress, Words: "stress, pressing counts positive"},
			{Key: "push_N", Kind: unit.KindNumber, Words: "push on the fixed points, N"},
			{Key: "bows_at_N", Kind: unit.KindNumber, Words: "push under which it bows between its supports, N"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			m, err := materialOf(materials, v)
			if err != nil {
				return formula.Values{}, err
			}
			od, wall := unit.Length(v.Num["od"]), unit.Length(v.Num["wall"])
			stress, push, err := Restrained(m, od, wall, unit.TempDiff(v.Num["dt"]))
			if err != nil {
				return formula.Values{}, err
			}
			out := formula.Num(map[string]float64{"stress_Pa": float64(stress), "push_N": push})
			if v.Has("span") {
				at, err := Bows(m.Modulus, od, wall, unit.Length(v.Num["span"]))
				if err != nil {
					return formula.Values{}, err
				}
				out.Put("bows_at_N", at)
			}
			return out, nil
		},
	}
}

// CornerFormula is `corner`: [Flex] of an L asked alone.
func CornerFormula(materials []Material) formula.Formula {
	return formula.Formula{
		Name:  "corner",
		Title: "what a corner takes up by itself: an L held at both ends",
		Law:   "push from the elastic centre of the two legs; stress = E od/2 times the greatest bend",
		Range: "elastic, square corner as stiff as line, one size; shortening under the push left out",
		Cite:  []cite.Ref{{Source: "materials-text", Place: "bending of beams, by the elastic centre", How: cite.Computed}},
		In: append(ofMaterial(names(materials)),
			formula.Symbol{Key: "leg", Kind: unit.KindLength, Words: "length of one leg, from its fixed point to the corner"},
			formula.Symbol{Key: "other_leg", Kind: unit.KindLength, Words: "length of the other"},
			formula.Symbol{Key: "dt", Kind: unit.KindTempDiff, Words: "change of temperature"},
			formula.Symbol{Key: "od", Kind: unit.KindLength, Words: "outside diameter"},
			formula.Symbol{Key: "wall", Kind: unit.KindLength, Words: "thickness of the wall"}),
		Out: []formula.Symbol{
			{Key: "stress_Pa", Kind: unit.KindStress, Words: "greatest bending stress"},
			{Key: "push_N", Kind: unit.KindNumber, Words: "push along the leg, N"},
			{Key: "other_push_N", Kind: unit.KindNumber, Words: "push along the other leg, N"},
			{Key: "moment_Nm", Kind: unit.KindNumber, Words: "greatest bending moment, N m"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			m, err := materialOf(materials, v)
			if err != nil {
				return formula.Values{}, err
			}
			if err := errors.Join(positive("leg", v.Num["leg"], "m"), positive("other_leg", v.Num["other_leg"], "m")); err != nil {
				return formula.Values{}, err
			}
			shape := [][2]float64{{-v.Num["leg"], 0}, {0, 0}, {0, v.Num["other_leg"]}}
			b, err := Flex(m, unit.Length(v.Num["od"]), unit.Length(v.Num["wall"]), shape, unit.TempDiff(v.Num["dt"]))
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{
				"stress_Pa": float64(b.Stress), "push_N": abs(b.Push[0]), "other_push_N": abs(b.Push[1]), "moment_Nm": b.Moment,
			}), nil
		},
	}
}
