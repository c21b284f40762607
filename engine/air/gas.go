package air

import (
	"math"

	"dropleg/engine/unit"
)

// GasConstant is R of dry air in J/(kg·K), the plain value of the line laws.
// The choices in print (287.053 of the 1976 standard atmosphere, 287.117 of
// the 2000 equation, 287.050 of CODATA) differ by 0.02 %.
const GasConstant = 287.055

// Kappa is cp/cv of dry air as an ideal gas. The real ratio is 1.40 to 1.44
// between 250 and 350 K and up to 1.5 MPa: see [HeatCapacityRatio].
const Kappa = 1.4

// Sutherland's constants for air, the form with a reference point.
const (
	sutherlandMu0 = 1.716e-5 // Pa·s at sutherlandT0
	sutherlandT0  = 273.15   // K
	sutherlandS   = 110.4    // K
)

// Viscosities of this package below the range are held at this temperature,
// so that a solver's excursion stays finite; no caller means such a value.
const sutherlandLeast = 50.0 // K

// Sutherland is the dynamic viscosity of air at low pressure in Pa·s:
// mu = mu0 (T/T0)^1.5 (T0+S)/(T+S), mu0 = 1.716e-5 Pa·s, T0 = 273.15 K,
// S = 110.4 K (cite sutherland, us-std-atm).
//
// Good to 0.5 % between 200 and 600 K at 0.1 MPa, 2 % at 1.5 MPa. It knows no
// pressure; beneath 50 K the temperature counts as 50 K. Never NaN for a
// finite temperature. [Viscosity] is the closer law.
func Sutherland(t unit.Temperature) unit.Viscosity {
	x := math.Max(float64(t), sutherlandLeast)
	return unit.Viscosity(sutherlandMu0 * math.Pow(x/sutherlandT0, 1.5) *
		(sutherlandT0 + sutherlandS) / (x + sutherlandS))
}

// IdealDensity is p/(R T) in kg/m³ with R = [GasConstant]. Exact enough for
// lines (Z lies within 0.1 % of one up to 0.3 MPa at 293 K, 0.5 % at 1.5 MPa);
// [Density] is the closer law. The temperature must be above zero.
func IdealDensity(p unit.AbsPressure, t unit.Temperature) unit.Density {
	return unit.Density(float64(p) / (GasConstant * float64(t)))
}
