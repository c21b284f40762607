package air

import (
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// overSymbol chooses the phase of both moisture formulas.
func overSymbol() formula.Symbol {
	return formula.Symbol{
		Key: "over", Kind: unit.KindWord, Choices: []string{"water", "ice"}, Optional: true,
		Words: "over what it is saturated; ice beneath 0 °C and water above unless given",
	}
}

// saturationCites are the sources of [SaturationPressure].
func saturationCites() []cite.Ref {
	return []cite.Ref{
		{Source: "iapws-if97", Place: "region 4, eqs 30, 31", How: cite.Read},
		{Source: "iapws-r14", Place: "eq 6", How: cite.Read},
		{Source: "murphy-koop2005", Place: "eq 10", How: cite.Recalled},
	}
}

// HumidFormula is `humid`: [SaturationPressure] and [Moist] asked alone.
func HumidFormula() formula.Formula {
	return formula.Formula{
		Name:  "humid",
		Title: "water in moist air",
		Law:   "e = rh es(T); water = e/(Rv T), Rv = 461.523 J/(kg K); W = 0.62197 e/(p - e); enhancement factor neglected (it stands beside)",
		Range: "water 123 to 647 K (supercooled beneath 0 °C), ice 50 to 273.16 K; outside: refused",
		Cite:  append(saturationCites(), cite.Ref{Source: "greenspan1976", How: cite.Recalled}),
		In: []formula.Symbol{
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature of the air"},
			overSymbol(),
			{Key: "rh", Kind: unit.KindRatio, Words: "relative humidity, over the same phase", Default: new(1.0)},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure of the air; the standard atmosphere unless given", Optional: true},
		},
		Out: []formula.Symbol{
			{Key: "saturation_pressure_Pa", Kind: unit.KindBarometer, Words: "saturation pressure"},
			{Key: "dew_point_K", Kind: unit.KindTemperature, Words: "dew point (frost point beneath 0 °C unless over water)"},
			{Key: "water_kg_m3", Kind: unit.KindDensity, Words: "water in a cubic metre as it stands"},
			{Key: "humidity_ratio", Kind: unit.KindNumber, Words: "water per dry air, kg/kg"},
			{Key: "enhancement_factor", Kind: unit.KindNumber, Words: "factor by which saturation is higher in air at this pressure"},
		},
		Eval: evalHumid,
	}
}

// evalHumid leaves out what the inputs do not determine: a dew point of dry
// air, a humidity ratio of vapour that needs more than the atmosphere.
func evalHumid(v formula.Values) (formula.Values, error) {
	over, _ := OverNamed(v.Word["over"])
	t, rh := unit.Temperature(v.Num["temp"]), unit.Ratio(v.Num["rh"])
	es, err := SaturationPressure(t, over)
	if err != nil {
		return formula.Values{}, err
	}
	if err := between("rh", float64(rh), 0, 1, ""); err != nil {
		return formula.Values{}, err
	}
	p := unit.AbsPressure(v.Get("p", float64(StandardPressure)))
	m := Moist{Pressure: p, Temperature: t, Vapour: es * unit.AbsPressure(rh)}
	out := formula.Num(map[string]float64{
		"saturation_pressure_Pa": float64(es),
		"water_kg_m3":            float64(m.WaterContent()),
	})
	switch err := m.check(); {
	case err == nil:
		out.Put("humidity_ratio", float64(m.HumidityRatio()))
	case v.Has("p"):
		return formula.Values{}, err
	}
	if dew, err := m.DewPoint(over); err == nil {
		out.Put("dew_point_K", float64(dew))
	}
	if f, err := EnhancementFactor(p, t); err == nil && (over == OverEither || (over == OverWater) == (t >= freezing)) {
		out.Put("enhancement_factor", float64(f))
	}
	return out, nil
}

// DewPointFormula is `dewpoint`: [DewPointAt] asked alone.
func DewPointFormula() formula.Formula {
	return formula.Formula{
		Name:  "dewpoint",
		Title: "dew point at another pressure",
		Law:   "es(dew2) = es(dew1) p_out/p, enhancement factor neglected",
		Range: "as for humid; frost point beneath 0 °C, about 2 K above the supercooled dew point of some charts (over=water)",
		Cite:  saturationCites(),
		In: []formula.Symbol{
			{Key: "dewpoint", Kind: unit.KindTemperature, Words: "dew point at p"},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure at which it holds"},
			{Key: "p_out", Kind: unit.KindPressure, Words: "pressure to bring the air to", Default: new(float64(StandardPressure))},
			overSymbol(),
		},
		Out: []formula.Symbol{
			{Key: "dew_point_K", Kind: unit.KindTemperature, Words: "dew point at p_out (frost point beneath 0 °C unless over water)"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			n := v.Num
			over, _ := OverNamed(v.Word["over"])
			dew, err := dewPointSaid(unit.Temperature(n["dewpoint"]), unit.AbsPressure(n["p"]), unit.AbsPressure(n["p_out"]), over)
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{"dew_point_K": float64(dew)}), nil
		},
	}
}

// dewPointSaid is [DewPointAt]; over ice it lets a dew point above 0 °C count
// over water, since ice only says what is wanted of the colder one.
func dewPointSaid(dew unit.Temperature, p, to unit.AbsPressure, over Over) (unit.Temperature, error) {
	if over == OverIce {
		over = OverEither
	}
	return DewPointAt(dew, p, to, over)
}
