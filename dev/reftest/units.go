package reftest

import "dropleg/engine/unit"

// The units of the tables in SI, exact by definition (NIST SP 811).
const (
	inch      = 0.0254
	foot      = 12 * inch
	cubicFoot = foot * foot * foot
	psi       = 6894.757293168361
	footPound = 1.3558179483314
	horse     = 550 * footPound
	litre     = 1e-3
	bar       = 1e5
	minute    = 60.0
	day       = 86400.0
	cfm       = cubicFoot / minute
)

// fahrenheit is a temperature on that scale.
func fahrenheit(t float64) unit.Temperature { return unit.Temperature((t + 459.67) / 1.8) }

// temperature is the row's, in whichever unit it is stated.
func temperature(r Row) unit.Temperature {
	switch {
	case r.Has("t_C"):
		return unit.Celsius(r.In["t_C"])
	case r.Has("t_F"):
		return fahrenheit(r.In["t_F"])
	}
	return unit.Temperature(r.In["T_K"])
}

// pressure is the row's absolute pressure.
func pressure(r Row) unit.AbsPressure {
	if r.Has("p_Pa") {
		return unit.AbsPressure(r.In["p_Pa"])
	}
	return unit.AbsPressure(r.In["p_MPa"] * 1e6)
}
