package element

import (
	"dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// atmosphere is the pressure that air flows out to where none is given.
const atmosphere = float64(air.StandardPressure)

// CouplerFormula is `coupler`: [ISO6358] asked alone.
func CouplerFormula() formula.Formula {
	return formula.Formula{
		Name:  "coupler",
		Title: "flow through a coupler, valve or other part rated by ISO 6358",
		Law:   "mass = C rho0 p sqrt(T0/T) (1 - ((p_out/p - b)/(1 - b))^2)^m; the bracket is 1 where p_out/p <= b; rho0 = 1.185 kg/m3, T0 = 293.15 K",
		Range: "b from 0 to below 1, m above 0 up to 1; p and p_out absolute, p_out not above p",
		Cite:  []cite.Ref{{Source: "iso6358", Place: "part 1, flow-rate equations", How: cite.Computed}},
		In: []formula.Symbol{
			{Key: "C", Kind: unit.KindConductance, Words: "sonic conductance"},
			{Key: "b", Kind: unit.KindRatio, Words: "critical pressure ratio"},
			{Key: "m", Kind: unit.KindNumber, Words: "subsonic index", Default: new(0.5)},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure before it"},
			{Key: "p_out", Kind: unit.KindPressure, Words: "pressure behind it", Default: new(atmosphere)},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature of the air", Default: new(roomK)},
		},
		Out: []formula.Symbol{
			{Key: "mass_flow_kg_s", Kind: unit.KindMassFlow, Words: "mass flow"},
			{Key: "free_air_m3_s", Kind: unit.KindFlow, Words: "free air (ISO 1217)"},
			{Key: "anr_m3_s", Kind: unit.KindVolumeFlow, Words: "at the standard's own reference (ANR, 1.185 kg/m3)"},
			{Key: "choked", Kind: unit.KindYesNo, Words: "choked"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			n := v.Num
			gas, err := dryAir(n["temp"])
			if err != nil {
				return formula.Values{}, err
			}
			// A stated index of zero must not pass for one left out.
			if err := positive("m", n["m"]); err != nil {
				return formula.Values{}, err
			}
			part, err := NewISO6358(gas, ISO6358Spec{C: n["C"], B: n["b"], Index: n["m"]})
			if err != nil {
				return formula.Values{}, err
			}
			out, err := passed(v, part)
			if err != nil {
				return formula.Values{}, err
			}
			out.Put("anr_m3_s", out.Num["mass_flow_kg_s"]/RefDensity)
			out.PutYes("choked", n["p_out"] <= n["b"]*n["p"])
			return out, nil
		},
	}
}

// LeakFormula is `leak`: [Orifice] asked alone.
func LeakFormula() formula.Formula {
	return formula.Formula{
		Name:  "leak",
		Title: "air lost through a hole or open nozzle",
		Law:   "mass = cd A p sqrt(7/(R T)) sqrt(t^5 (1 - t)), t = (p_out/p)^(2/7), not below 5/6: choked from p_out/p = 0.528 down",
		Range: "ideal gas, ratio of heats 1.4; cd about 0.61 for a sharp hole, 0.97 for a rounded nozzle",
		Cite:  []cite.Ref{{Source: "fluid-text", Place: "isentropic flow through an orifice", How: cite.Recalled}, {Source: "orifice-table", How: cite.Read}},
		In: []formula.Symbol{
			{Key: "bore", Kind: unit.KindLength, Words: "diameter of the hole"},
			{Key: "cd", Kind: unit.KindRatio, Words: "discharge coefficient; a sharp hole", Default: new(0.61)},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure before it"},
			{Key: "p_out", Kind: unit.KindPressure, Words: "pressure behind it; the atmosphere", Default: new(atmosphere)},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature of the air", Default: new(roomK)},
		},
		Out: []formula.Symbol{
			{Key: "mass_flow_kg_s", Kind: unit.KindMassFlow, Words: "mass flow"},
			{Key: "free_air_m3_s", Kind: unit.KindFlow, Words: "free air (ISO 1217)"},
			{Key: "choked", Kind: unit.KindYesNo, Words: "choked"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			n := v.Num
			gas, err := dryAir(n["temp"])
			if err != nil {
				return formula.Values{}, err
			}
			hole, err := NewOrifice(gas, n["bore"], n["cd"])
			if err != nil {
				return formula.Values{}, err
			}
			out, err := passed(v, hole)
			if err != nil {
				return formula.Values{}, err
			}
			_, _, byOutlet := hole.Flow(n["p"], n["p_out"])
			out.PutYes("choked", byOutlet == 0)
			return out, nil
		},
	}
}

// passed is the flow of a law between p and p_out, as mass and as free air.
func passed(v formula.Values, law Law) (formula.Values, error) {
	p, outside := v.Num["p"], v.Num["p_out"]
	if err := first(positive("p", p), within("p_out", outside, 0, p)); err != nil {
		return formula.Values{}, err
	}
	m, _, _ := law.Flow(p, outside)
	return formula.Num(map[string]float64{
		"mass_flow_kg_s": m,
		"free_air_m3_s":  float64(air.FreeAir(unit.MassFlow(m))),
	}), nil
}
