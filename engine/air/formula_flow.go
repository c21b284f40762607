package air

import (
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// FreeAirFormula is `freeair`: [Basis] asked alone.
func FreeAirFormula() formula.Formula {
	var words []string
	for _, r := range unit.References() {
		words = append(words, string(r))
	}
	return formula.Formula{
		Name:  "freeair",
		Title: "a flow of air at another reference",
		Law:   "V2 = V1 (p1 - rh1 es1)/(p2 - rh2 es2) T2/T1: the dry air is kept; m = V (p - rh es)/(R T)",
		Range: "exact for ideal gas, R = 287.055 J/(kg K); the mass is that of the dry air",
		Cite: []cite.Ref{
			{Source: "iso1217", Place: "reference conditions", How: cite.Recalled},
			{Source: "iso8778", How: cite.Recalled},
			{Source: "din1343", How: cite.Read},
		},
		In: []formula.Symbol{
			{Key: "flow", Kind: unit.KindFlow, Words: "flow as stated; iso1217 where it has no mark"},
			{Key: "to", Kind: unit.KindWord, Words: "reference wanted", Choices: words, Word: string(unit.RefISO1217)},
			// A site's pressure is a barometer's: 0.9 bar means absolute here.
			{Key: "p", Kind: unit.KindBarometer, Words: "site: pressure, absolute", Optional: true},
			{Key: "h", Kind: unit.KindLength, Words: "site: height in place of p, standard atmosphere", Optional: true},
			{Key: "temp", Kind: unit.KindTemperature, Words: "site: temperature", Optional: true},
			{Key: "rh", Kind: unit.KindRatio, Words: "site: relative humidity; dry unless given", Optional: true},
		},
		Out: []formula.Symbol{
			{Key: "flow_m3_s", Kind: unit.KindVolumeFlow, Words: "flow at the reference"},
			{Key: "mass_flow_kg_s", Kind: unit.KindMassFlow, Words: "dry air"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			basis, err := basisOf(v)
			if err != nil {
				return formula.Values{}, err
			}
			m, err := basis.Mass(v.Flow["flow"])
			if err != nil {
				return formula.Values{}, err
			}
			to, err := basis.Reading(m, unit.Reference(v.GetWord("to", string(unit.RefISO1217))))
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{"flow_m3_s": to.Value, "mass_flow_kg_s": float64(m)}), nil
		},
	}
}

// basisOf reads the site if enough of it was given; [ErrNoSite] comes later,
// and only if a flow needs it.
func basisOf(v formula.Values) (Basis, error) {
	// A stated pressure goes before a height, which only guesses it.
	p := unit.AbsPressure(v.Num["p"])
	if !v.Has("p") && v.Has("h") {
		a, err := AtmosphereAt(unit.Length(v.Num["h"]))
		if err != nil {
			return Basis{}, err
		}
		p = a.Pressure
	}
	if p == 0 && !v.Has("p") || !v.Has("temp") {
		return Basis{}, nil
	}
	site, err := Site(p, unit.Temperature(v.Num["temp"]), unit.Ratio(v.Num["rh"]))
	return Basis{Site: site}, err
}

// PowerFormula is `power`: [Compression] asked alone.
func PowerFormula() formula.Formula {
	return formula.Formula{
		Name:  "power",
		Title: "power to compress air",
		Law:   "P = s n/(n-1) p_in V (r^((n-1)/n) - 1)/efficiency, r = (p_out/p_in)^(1/s); n = 1: p_in V ln(p_out/p_in)/efficiency",
		Range: "ideal gas, cooled back to the intake temperature between equal stages; p_out from p_in to 1000 p_in, 1 to 10 stages",
		Cite:  []cite.Ref{{Source: "machinery-handbook", Place: "horsepower to compress air", How: cite.Read}},
		In: []formula.Symbol{
			{Key: "flow", Kind: unit.KindFlow, Words: "flow; drawn in at p_in and temp where it has no mark"},
			{Key: "p_in", Kind: unit.KindPressure, Words: "intake pressure", Default: new(float64(ISO1217.Pressure))},
			{Key: "p_out", Kind: unit.KindPressure, Words: "outlet pressure"},
			{Key: "stages", Kind: unit.KindInteger, Words: "stages of equal ratio", Default: new(1.0)},
			{Key: "efficiency", Kind: unit.KindRatio, Words: "overall efficiency against this path", Default: new(1.0)},
			{Key: "exponent", Kind: unit.KindNumber, Words: "exponent n of the path: 1.4 uncooled, 1 isothermal", Default: new(Kappa)},
			{Key: "temp", Kind: unit.KindTemperature, Words: "intake temperature", Default: new(roomK)},
		},
		Out: []formula.Symbol{
			{Key: "power_W", Kind: unit.KindPower, Words: "power"},
			{Key: "specific_kWh_m3", Kind: unit.KindSpecificEnergy, Words: "work per volume drawn in"},
			{Key: "stage_ratio", Kind: unit.KindNumber, Words: "pressure ratio of a stage"},
			{Key: "discharge_temperature_K", Kind: unit.KindTemperature, Words: "temperature out of the last stage"},
		},
		Eval: evalPower,
	}
}

// evalPower takes an unmarked or site flow as drawn in, as ISO 1217 measures a
// compressor's free air; every other flow is a mass that has a volume there.
func evalPower(v formula.Values) (formula.Values, error) {
	n := v.Num
	c := Compression{
		In: unit.AbsPressure(n["p_in"]), Out: unit.AbsPressure(n["p_out"]),
		Stages: int(n["stages"]), Exponent: n["exponent"],
	}
	work, err := c.Work()
	if err != nil {
		return formula.Values{}, err
	}
	hot, err := c.Discharge(unit.Temperature(n["temp"]))
	if err != nil {
		return formula.Values{}, err
	}
	// The intake counts as dry: vapour takes the same work by volume.
	intake, err := Site(c.In, unit.Temperature(n["temp"]), 0)
	if err != nil {
		return formula.Values{}, err
	}
	mass, err := Basis{Job: intake, Site: intake}.Mass(v.Flow["flow"])
	if err != nil {
		return formula.Values{}, err
	}
	power, err := c.ShaftPower(intake.Volume(mass), unit.Ratio(n["efficiency"]))
	if err != nil {
		return formula.Values{}, err
	}
	return formula.Num(map[string]float64{
		"power_W":                 float64(power),
		"specific_kWh_m3":         work / n["efficiency"],
		"stage_ratio":             c.StageRatio(),
		"discharge_temperature_K": float64(hot),
	}), nil
}
