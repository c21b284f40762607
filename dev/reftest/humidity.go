package reftest

import (
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

const humidityFile = "air/humidity.csv"

func saturationLaws() []Law {
	return []Law{{
		Topic: "Humidity", Name: "saturation pressure over water and ice", Code: "engine/air SaturationPressure", File: humidityFile,
		Of: []string{"saturation vapour pressure", "sublimation pressure"}, Got: saturation,
		Because: []Because{
			{When: ids("HUMI-0016"), Rel: 3e-4, Why: "over ice, the 1983 table against IAPWS R14-08 at 173 K"},
			{When: ids("HUMI-0019"), Rel: 3e-4, Why: "the 1983 table against IAPWS-IF97 at 473 K"},
			{
				When: of("saturation vapour pressure, Hyland-Wexler (ASHRAE Eq 5/6)"), Rel: 4e-4,
				Why: "the 1983 formulation; the IAPWS ones here replaced it",
			},
			{
				When: func(r Row) bool { return strings.Contains(r.Quantity, "WMO Magnus form") && r.In["t_C"] > 60 }, Rel: 3e-2,
				Why: "an approximation beyond the 60 °C up to which it is meant",
			},
			{
				When: func(r Row) bool { return strings.HasPrefix(r.Source, "Murphy & Koop") }, Rel: 2e-3,
				Why: "their own formula over ice; ours is IAPWS R14-08, which replaced it",
			},
			{When: of("saturation vapour pressure, WMO Magnus form"), Rel: 5e-3, Why: "a two-constant approximation"},
			{When: of("saturation vapour pressure, Buck 1996"), Rel: 4e-3, Why: "an approximation for meteorology"},
		},
	}}
}

// saturation answers the formulations that are ours, and those of others within
// what their explanation allows.
func saturation(r Row) (float64, error) {
	q, phase, over := r.Quantity, r.Word["phase"], air.OverEither
	switch {
	case strings.Contains(q, "over ice") || phase == "ice":
		over = air.OverIce
	case strings.Contains(q, "water above"), strings.Contains(q, "ice below"):
	case strings.Contains(q, "over water"), strings.Contains(q, "supercooled"), phase == "water":
		over = air.OverWater
	}
	e, err := air.SaturationPressure(temperature(r), over)
	if r.Unit == "psi" {
		return float64(e) / psi, err
	}
	return float64(e), err
}

func moistLaws() []Law {
	const topic = "Humidity"
	return []Law{
		{
			Topic: topic, Name: "enhancement factor", Code: "engine/air EnhancementFactor", File: humidityFile,
			Of: []string{"enhancement factor"},
			Got: func(r Row) (float64, error) {
				f, err := air.EnhancementFactor(pressure(r), temperature(r))
				return float64(f), err
			},
			Because: []Because{{When: of("enhancement factor"), Rel: 5e-4, Why: "Greenspan's fit, 4e-4 beneath the virial table at 100 °C and 1 MPa"}},
		},
		{
			Topic: topic, Name: "moist air: water held, volume", Code: "engine/air MoistAt", File: humidityFile,
			Of:  []string{"saturation humidity ratio", "specific volume of saturated moist air", "saturated moisture content"},
			Got: moist,
			Because: []Because{
				{
					When: func(r Row) bool {
						return r.Quantity == "saturated moisture content (absolute humidity)" && r.In["t_C"] < 0
					}, Rel: 4e-4,
					Why: "the row takes ice by the 1983 formulation, we by IAPWS R14-08",
				},
				{
					When: of("saturated moisture content"), Rel: 2e-4,
					Why: "the row takes water by the 1983 formulation, we by IAPWS-IF97",
				},
				{
					When: of("specific volume of saturated moist air"), Rel: 6e-3,
					Why: "ideal gas without enhancement: 0.55 % at 1 MPa is Z of dry air",
				},
			},
		},
		{
			Topic: topic, Name: "dew point moved with pressure", Code: "engine/air DewPointAt", File: humidityFile,
			Of: []string{"atmospheric dew", "pressure dew point from"}, Got: dewPoint,
		},
		{
			Topic: topic, Name: "water taken in and fallen out", Code: "engine/air Compressed", File: humidityFile,
			When: func(r Row) bool { return r.Has("intake_t_C", "hours") }, Got: waterOfDay,
		},
		{
			Topic: topic, Name: "water taken in, trade example", Code: "engine/air Moist.WaterContent", File: humidityFile,
			Of: []string{"water vapour taken in per day"}, Got: tradeExample,
		},
	}
}

func moist(r Row) (float64, error) {
	if strings.HasPrefix(r.Quantity, "saturated moisture content") {
		// The content of saturated air does not depend on the pressure.
		m, err := air.MoistAt(1e7, temperature(r), 1, air.OverEither)
		return float64(m.WaterContent()) * 1e3, err
	}
	m, err := air.MoistAt(pressure(r), temperature(r), 1, air.OverEither)
	if r.Quantity == "saturation humidity ratio" {
		return float64(m.HumidityRatio()), err
	}
	return 1 / float64(m.DryDensity()), err
}

func dewPoint(r Row) (float64, error) {
	high := unit.AbsPressure((r.In["p_bar_g"] + r.In["p_atm_bar"]) * bar)
	low := unit.AbsPressure(r.In["p_atm_bar"] * bar)
	switch {
	case strings.HasPrefix(r.Quantity, "pressure dew point from"):
		d, err := air.DewPointAt(unit.Celsius(r.In["atmospheric_dew_point_C"]), low, high, air.OverEither)
		return d.Celsius(), err
	case strings.Contains(r.Quantity, "supercooled"):
		// The rows start from frost where the pressure dew point lies beneath zero.
		m, err := air.MoistAt(high, unit.Celsius(r.In["pressure_dew_point_C"]), 1, air.OverEither)
		if err != nil {
			return 0, err
		}
		d, err := m.At(low, m.Temperature).DewPoint(air.OverWater)
		return d.Celsius(), err
	}
	d, err := air.DewPointAt(unit.Celsius(r.In["pressure_dew_point_C"]), high, low, air.OverEither)
	return d.Celsius(), err
}

func waterOfDay(r Row) (float64, error) {
	atm := unit.AbsPressure(r.In["p_atm_bar"] * bar)
	intake, err := air.MoistAt(atm, unit.Celsius(r.In["intake_t_C"]), unit.Ratio(r.In["intake_rh_pct"]/100), air.OverWater)
	if err != nil {
		return 0, err
	}
	w, err := air.Compressed(intake, unit.VolumeFlow(r.In["free_air_L_per_min"]*litre/minute),
		unit.AbsPressure(r.In["p_bar_g"]*bar)+atm, unit.Celsius(r.In["cooled_to_C"]))
	switch r.Quantity {
	case "water taken in with the intake air":
		return float64(w.TakenIn) * day, err
	case "condensate":
		return float64(w.Condensate) * day, err
	}
	return float64(w.Vapour) * day, err
}

// tradeExample is 500 scfm at 75 °F and 75 % RH; a US gallon of water is 3.7785 kg.
func tradeExample(Row) (float64, error) {
	const gallon = 3.785411784 * 0.998
	intake, err := air.MoistAt(14.7*psi, fahrenheit(75), 0.75, air.OverWater)
	return 500 * cfm * float64(intake.WaterContent()) * day / gallon, err
}
