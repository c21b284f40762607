package air

import (
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// roomK is the temperature taken where none is given: 20 °C, that of ISO 1217.
const roomK = 293.15

// Formulas lists the formulas of this package, in the order in which they are told.
func Formulas() []formula.Formula {
	return []formula.Formula{
		DryFormula(), AltitudeFormula(), HumidFormula(), DewPointFormula(),
		FreeAirFormula(), PowerFormula(),
	}
}

// DryFormula is `air`: [DryAt] asked alone.
func DryFormula() formula.Formula {
	return formula.Formula{
		Name:  "air",
		Title: "dry air at a pressure and temperature",
		Law:   "rho from p = rho R T (1 + delta alpha_delta), viscosity = dilute(T) + residual(rho, T)",
		Range: "60 to 2000 K, up to 100 MPa, gas only; outside: refused. Density 0.1 %, viscosity 1 %",
		Cite: []cite.Ref{
			{Source: "lemmon2000", Place: "eqs 7-9, Tables 12, 13", How: cite.Read},
			{Source: "lemmon-jacobsen2004", Place: "eqs 1-5", How: cite.Read},
		},
		In: []formula.Symbol{
			{Key: "p", Kind: unit.KindPressure, Words: "pressure"},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature", Default: new(roomK)},
		},
		// Density and Z are the equation's own, with its own gas constant (287.117);
		// the line laws use the ideal gas with 287.055, 0.02 % beside it.
		Out: []formula.Symbol{
			{Key: "density_kg_m3", Kind: unit.KindDensity, Words: "density"},
			{Key: "viscosity_Pa_s", Kind: unit.KindViscosity, Words: "dynamic viscosity"},
			{Key: "compressibility", Kind: unit.KindNumber, Words: "compressibility factor Z"},
			{Key: "heat_capacity_J_kgK", Kind: unit.KindHeatCapacity, Words: "heat capacity at constant pressure"},
			{Key: "heat_capacity_ratio", Kind: unit.KindNumber, Words: "ratio of heat capacities"},
			{Key: "sound_speed_m_s", Kind: unit.KindVelocity, Words: "speed of sound"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			s, err := DryAt(unit.AbsPressure(v.Num["p"]), unit.Temperature(v.Num["temp"]))
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{
				"density_kg_m3":       float64(s.Density),
				"viscosity_Pa_s":      float64(s.Viscosity),
				"compressibility":     float64(s.Compressibility),
				"heat_capacity_J_kgK": s.Cp,
				"heat_capacity_ratio": float64(s.HeatRatio),
				"sound_speed_m_s":     float64(s.SoundSpeed),
			}), nil
		},
	}
}

// AltitudeFormula is `altitude`: [AtmosphereAt] asked alone.
func AltitudeFormula() formula.Formula {
	return formula.Formula{
		Name:  "altitude",
		Title: "standard atmosphere at a height",
		Law:   "p = pb (T/Tb)^(-g/(R L)), T = Tb + L (h - hb)",
		Range: "-2000 to 32000 m; outside: refused. Weather moves a place by 3 %",
		Cite:  []cite.Ref{{Source: "iso2533", Place: "clause 2", How: cite.Computed}},
		In: []formula.Symbol{
			{Key: "h", Kind: unit.KindLength, Words: "height above sea level"},
			// Tables of altitude count geopotential metres, a survey counts geometric ones.
			{Key: "height", Kind: unit.KindWord, Words: "how the height counts", Choices: []string{"geopotential", "geometric"}, Word: "geopotential"},
		},
		Out: []formula.Symbol{
			{Key: "pressure_Pa_abs", Kind: unit.KindBarometer, Words: "atmospheric pressure"},
			{Key: "temperature_K", Kind: unit.KindTemperature, Words: "temperature"},
			{Key: "density_kg_m3", Kind: unit.KindDensity, Words: "density"},
			{Key: "sound_speed_m_s", Kind: unit.KindVelocity, Words: "speed of sound"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			h := unit.Length(v.Num["h"])
			if v.Word["height"] == "geometric" {
				// At minus the Earth's radius the conversion has a pole.
				if err := between("height", float64(h), 2*altitudeLeast, 2*altitudeMost, "m"); err != nil {
					return formula.Values{}, err
				}
				h = Geopotential(h)
			}
			a, err := AtmosphereAt(h)
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{
				"pressure_Pa_abs": float64(a.Pressure),
				"temperature_K":   float64(a.Temperature),
				"density_kg_m3":   float64(a.Density),
				"sound_speed_m_s": float64(a.SoundSpeed),
			}), nil
		},
	}
}
