package air

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// Dry is a state of dry air with everything the equation of state and the
// transport equations say about it.
type Dry struct {
	Density         unit.Density
	Compressibility unit.Ratio // Z = p/(rho R T), R of the equation itself
	Viscosity       unit.Viscosity
	Conductivity    float64 // W/(m·K), without the enhancement near the critical point
	Cp, Cv          float64 // J/(kg·K)
	HeatRatio       unit.Ratio
	SoundSpeed      unit.Velocity
}

// DryAt gives dry air at p and t: rho from p = rho R T (1 + δ αδ), then cp, cv,
// w from the derivatives of the same equation (cite lemmon2000, range 60 to
// 2000 K, here up to 100 MPa), viscosity and conductivity (cite
// lemmon-jacobsen2004). Beneath 132.6 K only the gas side, up to 98 % of the
// dew pressure. Outside: an error that names the range.
func DryAt(p unit.AbsPressure, t unit.Temperature) (Dry, error) {
	rho, err := gasDensity(p, t)
	if err != nil {
		return Dry{}, err
	}
	return dryOf(rho, float64(t)), nil
}

// dryOf evaluates every property at rho mol/m³.
func dryOf(rho, t float64) Dry {
	delta, tau := rho/densityJ, tempJ/t
	r := residualAt(delta, tau)
	cv := -(idealTT(tau) + r.tt) // in units of R
	cross := 1 + r.d - r.dt
	slope := 1 + 2*r.d + r.dd
	cp := cv + cross*cross/slope
	perMass := molarR / molarMass
	return Dry{
		Density:         unit.Density(rho * molarMass),
		Compressibility: unit.Ratio(1 + r.d),
		Viscosity:       unit.Viscosity(viscosityAt(rho, t) * 1e-6),
		Conductivity:    conductivityAt(rho, t) * 1e-3,
		Cp:              cp * perMass,
		Cv:              cv * perMass,
		HeatRatio:       unit.Ratio(cp / cv),
		SoundSpeed:      unit.Velocity(math.Sqrt(perMass * t * slope * cp / cv)),
	}
}

// Density is the density of dry air by the equation of state; see [DryAt].
func Density(p unit.AbsPressure, t unit.Temperature) (unit.Density, error) {
	rho, err := gasDensity(p, t)
	return unit.Density(rho * molarMass), err
}

// Compressibility is Z = p/(rho R T) of dry air; see [DryAt]. It leaves one by
// more than 0.1 % above about 0.3 MPa at 293 K.
func Compressibility(p unit.AbsPressure, t unit.Temperature) (unit.Ratio, error) {
	rho, err := gasDensity(p, t)
	if err != nil {
		return 0, err
	}
	return unit.Ratio(float64(p) / (rho * molarR * float64(t))), nil
}

// Viscosity is the dynamic viscosity of dry air at p and t by the 2004
// transport equation; see [DryAt]. [Sutherland] is the plain law for lines.
func Viscosity(p unit.AbsPressure, t unit.Temperature) (unit.Viscosity, error) {
	rho, err := gasDensity(p, t)
	if err != nil {
		return 0, err
	}
	return unit.Viscosity(viscosityAt(rho, float64(t)) * 1e-6), nil
}

// HeatCapacityRatio is cp/cv of dry air at p and t; see [DryAt].
func HeatCapacityRatio(p unit.AbsPressure, t unit.Temperature) (unit.Ratio, error) {
	s, err := DryAt(p, t)
	return s.HeatRatio, err
}

// gasDensity is the molar density in mol/m³, after the range has been looked at.
func gasDensity(p unit.AbsPressure, t unit.Temperature) (float64, error) {
	if err := between("temperature", float64(t), tempLeast, tempMost, "K"); err != nil {
		return 0, err
	}
	if err := above("pressure", float64(p), 0, pressMost, "Pa absolute"); err != nil {
		return 0, err
	}
	if float64(t) < tempJ {
		if dew := dewPressure(float64(t)); float64(p) > dewCeiling*dew {
			return 0, fmt.Errorf("pressure %.6g Pa absolute: at %.5g K air is a gas only beneath %.6g Pa",
				float64(p), float64(t), dewCeiling*dew)
		}
	}
	return molarDensity(float64(p), float64(t)), nil
}
